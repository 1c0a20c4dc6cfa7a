// Spanish, whole. Its terms are listed in es/words.ts.

import type { Text } from "../strings.ts";
import * as bin from "./es/bin.ts";
import * as planning from "./es/bin-plan.ts";
import * as keeping from "./es/bin-setup.ts";
import * as codes from "./es/codes.ts";
import * as feeding from "./es/feeder.ts";
import * as eating from "./es/food.ts";
import * as freezing from "./es/freezer.ts";
import * as harvesting from "./es/harvest.ts";
import * as printed from "./es/labels.ts";
import * as looking from "./es/look.ts";
import * as phone from "./es/phone.ts";
import * as pictures from "./es/photos.ts";
import * as scanning from "./es/scan.ts";
import * as sections from "./es/section.ts";
import * as telling from "./es/timeline.ts";
import * as diagnosing from "./es/trouble.ts";
import * as weighing from "./es/weigh.ts";

export const spanish: Text = {
	span: (mid, low, high) => `${mid}, de ${low} a ${high}`,
	sentence: (doings) => {
		const joined = doings.join(", ");
		return `${joined.charAt(0).toUpperCase()}${joined.slice(1)}.`;
	},
	...bin,
	...codes,
	...weighing,
	...feeding,
	...looking,
	...telling,
	...eating,
	...printed,
	...phone,
	...freezing,
	...sections,
	...pictures,
	...scanning,
	...diagnosing,
	...harvesting,
	...keeping,
	...planning,
};
