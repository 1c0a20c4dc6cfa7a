// What a section says, beside the drawing and instead of it. Both come from
// here, so that a screen reader hears what the eye reads.

import {
	bulk,
	dayBrief,
	dayName,
	type Mass,
	number,
	rough,
	type Temp,
	temperature,
	weight,
} from "../format.ts";
import { text } from "../strings.ts";
import type { BaseView, TierView } from "../types.gen.ts";
import { said, spanWords, spotWords } from "../words.ts";
import { type Meal, shownScraps } from "./stack.ts";

/** What a section is drawn and told with. */
export interface SectionLook {
	bin: string;
	open: string; // id of the tray whose page it is
	guess: boolean;
	meal: Meal | undefined;
	today: string;
	mass: Mass;
	temp: Temp;
	liquid: (base: BaseView) => string;
}

/** One label: what it says, and of what. The larger its rank, the sooner it
 * gives way. */
export interface Worded {
	of: string; // "worms", "bedding", "castings", "liquid" or a feeding
	words: string;
	detail: string;
	rank: number;
	squeeze?: string; // drawn as a handful with its drops
}

/** "200 g today, front middle". */
export function mealWords(look: SectionLook): string {
	const spot = spotWords(look.meal?.spot);
	const amount = weight(look.meal?.grams ?? 0, look.mass);
	return spot ? text.section.mealAt(amount, spot) : text.section.meal(amount);
}

export const stageWords = (tier: TierView): string => {
	const stage = said(text.stages, tier.stage);
	return tier.stageDay > 0 ? text.section.stage(stage, tier.stageDay) : stage;
};

/** The labels of one tray, the needed ones first. */
export function labelsOf(tier: TierView, look: SectionLook): Worded[] {
	const labels: Worded[] = [];
	const { mass, today } = look;
	const near = (grams: number): string => weight(rough(grams, tier.worms, mass), mass);
	if (tier.worms.mid > 0) {
		labels.push({
			of: "worms",
			words: text.section.worms(near(tier.worms.mid)),
			detail: text.section.span(near(tier.worms.low), near(tier.worms.high)),
			rank: 1,
		});
	}
	if (tier.cocoons) {
		labels.push({
			of: "cocoons",
			words: text.section.cocoons(number(tier.cocoons.count)),
			detail: text.section.counted(dayBrief(tier.cocoons.day, today)),
			rank: 4,
		});
	}
	const bed = bedLabel(tier, look);
	labels.push(bed ?? { of: "bedding", words: text.section.bedding, detail: "", rank: 6 });
	shownScraps(tier).forEach((p, i) => {
		labels.push({
			of: p.feeding,
			words: text.section.scraps(dayBrief(p.day, today)),
			detail: text.section.left(weight(p.left, mass)),
			rank: i === 0 ? 3 : 7 + i, // the oldest give way first
		});
	});
	labels.push({
		of: "castings",
		words: text.section.castings,
		detail: tier.castingsG > 0 ? text.section.about(castingsWords(tier, mass)) : "",
		rank: 5,
	});
	return labels;
}

/** Castings are reckoned, not weighed: to a third either way. Judgement. */
function castingsWords(tier: TierView, mass: Mass): string {
	const range = { low: (tier.castingsG * 2) / 3, high: (tier.castingsG * 4) / 3 };
	return bulk(rough(tier.castingsG, range, mass), mass);
}

/** The bedding with what was read of it: its temperature and its moisture. */
function bedLabel(tier: TierView, look: SectionLook): Worded | undefined {
	const { bed } = tier;
	if (!bed) return undefined;
	const day = bed.tempDay ?? bed.squeezeDay;
	return {
		of: "bedding",
		words:
			bed.temp === undefined
				? text.section.bedding
				: text.section.bedAt(temperature(bed.temp, look.temp)),
		detail: day ? dayBrief(day, look.today) : "",
		rank: 2,
		...(bed.squeeze ? { squeeze: bed.squeeze } : {}),
	};
}

/** The whole section in sentences, one line a tray, then the base. */
export function sectionLines(
	stack: TierView[],
	base: BaseView | undefined,
	look: SectionLook,
): string[] {
	const lines = stack.map((tier) => {
		const says = [text.section.tray(tier.name, stageWords(tier))];
		const meal = tier.takes && (look.meal?.grams ?? 0) > 0;
		if (meal) says.push(text.section.takes(mealWords(look)));
		else if (tier.takes) says.push(text.section.takesFood);
		says.push(
			text.section.fill(
				text.section.mm(tier.beddingMM),
				text.section.mm(tier.castingsMM),
				tier.castingsG > 0 ? castingsWords(tier, look.mass) : "",
				text.section.mm(tier.heightMM),
			),
		);
		says.push(
			tier.worms.mid > 0
				? look.guess
					? text.section.wormsGuessed(spanWords(tier.worms, look.mass))
					: text.section.wormsSay(spanWords(tier.worms, look.mass))
				: text.section.noWorms,
		);
		for (const p of shownScraps(tier)) {
			const left = weight(p.left, look.mass);
			const day = dayName(p.day, look.today);
			says.push(text.section.scrapsSay(left, day, spotWords(p.spot)));
		}
		if (tier.cocoons) {
			const day = dayName(tier.cocoons.day, look.today);
			says.push(text.section.cocoonsSay(number(tier.cocoons.count), day));
		}
		const { bed } = tier;
		if (bed?.temp !== undefined && bed.tempDay) {
			says.push(
				text.section.bedSays(temperature(bed.temp, look.temp), dayName(bed.tempDay, look.today)),
			);
		}
		if (bed?.squeeze && bed.squeezeDay) {
			says.push(
				text.section.squeezeSays(
					said(text.squeezes, bed.squeeze),
					dayName(bed.squeezeDay, look.today),
				),
			);
		}
		return says.join(" ");
	});
	if (base) lines.push(text.section.baseSays(look.liquid(base)));
	return lines;
}
