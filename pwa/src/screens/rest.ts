// The screens of the second script; see ../screens.ts.

import "../parts/photo-slot.ts";
import "./bin.ts";
import "./card.ts";
import "./catch-up.ts";
import "./code.ts";
import "./food.ts";
import "./freezer.ts";
import "./harvest.ts";
import "./household.ts";
import "./join.ts";
import "./labels.ts";
import "./look.ts";
import "./more.ts";
import "./plan.ts";
import "./scan.ts";
import "./timeline.ts";
import "./trouble.ts";
import "./weigh.ts";
