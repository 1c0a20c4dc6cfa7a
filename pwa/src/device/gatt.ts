// What two standard Bluetooth services write, as bytes to numbers: the weight of
// a scale and the temperature of a thermometer. Little-endian throughout.
//
// Layouts: Bluetooth SIG, Weight Scale Service 1.0 (2014), Weight Measurement
// 0x2A9D and Weight Scale Feature 0x2A9E; Environmental Sensing Service 1.0
// (2014), Temperature 0x2A6E; as in the SIG's published GATT descriptions.

/** Why a value is none: the scale could not measure; it shows less than nothing;
 * the bytes are not of the standard; the sensor does not know. */
export type Unread = "failed" | "negative" | "foreign" | "unknown";

/** A weight as the scale wrote it. */
export interface Weighed {
	grams: number; // not rounded
	imperial: boolean;
	hundredths: number; // of a pound, where imperial
}

// One step of the value: 5 g, or 0.01 lb of 453.59237 g (international yard and
// pound agreement, 1959).
const GRAMS_A_STEP = 5;
const GRAMS_A_POUND = 453.59237;
const FAILED = 0xffff; // "measurement unsuccessful"
// The value has no sign. A scale that writes one all the same shows less than
// nothing from here on, and no kitchen scale carries 163 kg.
const SIGNED = 0x8000;

const IMPERIAL = 0x01;
const TIMED = 0x02; // 7 bytes of date and time
const USER = 0x04; // 1 byte
const BODY = 0x08; // 4 bytes of body mass index and height
const RESERVED = 0xf0;

const lengthOf = (flags: number): number =>
	3 + (flags & TIMED ? 7 : 0) + (flags & USER ? 1 : 0) + (flags & BODY ? 4 : 0);

/** Reads a Weight Measurement. Several may stand one behind the other; the last
 * one counts. Anything that is not exactly that is another maker's layout under
 * the same number, and refused. */
export function weighed(bytes: DataView): Weighed | Unread {
	let at = 0;
	let last = -1;
	while (at + 3 <= bytes.byteLength) {
		const flags = bytes.getUint8(at);
		if (flags & RESERVED) return "foreign";
		last = at;
		at += lengthOf(flags);
	}
	if (last < 0 || at !== bytes.byteLength) return "foreign";
	const value = bytes.getUint16(last + 1, true);
	if (value === FAILED) return "failed";
	if (value >= SIGNED) return "negative";
	const imperial = (bytes.getUint8(last) & IMPERIAL) !== 0;
	return {
		grams: imperial ? (value * GRAMS_A_POUND) / 100 : value * GRAMS_A_STEP,
		imperial,
		hundredths: imperial ? value : 0,
	};
}

// Weight Scale Feature, bits 3 to 6: the code of the resolution, in kg and lb.
// Codes 1, 6 and 7 as in the SIG's description; 2 to 5 from memory.
const STEPS: readonly (readonly [kilograms: number, pounds: number])[] = [
	[0.005, 0.01], // not said: the step of the value itself
	[0.5, 1],
	[0.2, 0.5],
	[0.1, 0.2],
	[0.05, 0.1],
	[0.02, 0.05],
	[0.01, 0.02],
	[0.005, 0.01],
];

/** The scale's step, in g and in lb; that of the value itself where the feature
 * is missing or says nothing. */
export function stepOf(feature: DataView | undefined): { grams: number; pounds: number } {
	const bits = feature && feature.byteLength >= 4 ? feature.getUint32(0, true) : 0;
	const [kilograms, pounds] = STEPS[(bits >> 3) & 0x0f] ?? [0.005, 0.01];
	return { grams: Math.round(kilograms * 1000), pounds };
}

const NOT_KNOWN = -0x8000; // from memory
const COLDEST = -27315; // absolute zero

/** Reads a Temperature: hundredths of a degree Celsius, signed. Returns tenths,
 * rounded half away from zero. */
export function celsiusTenths(bytes: DataView): number | Unread {
	if (bytes.byteLength !== 2) return "foreign";
	const value = bytes.getInt16(0, true);
	if (value === NOT_KNOWN) return "unknown";
	if (value < COLDEST) return "foreign";
	return Math.sign(value) * Math.round(Math.abs(value) / 10) || 0;
}

/** How long a scale must show the same before it counts as still, ms. Our choice. */
export const STILL_MS = 1200;

/** The readings of a scale on their way to rest. */
export interface Resting {
	grams: number;
	since: number; // ms
}

/** Takes a reading in: what moves by less than a step is the same. */
export function resting(
	before: Resting | undefined,
	grams: number,
	step: number,
	now: number,
): Resting {
	const same = before !== undefined && Math.abs(before.grams - grams) < step;
	return { grams, since: same ? before.since : now };
}
