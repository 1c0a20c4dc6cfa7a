// Kitchen scales and thermometers over Bluetooth, where the browser has it: the
// two standard services only. The bytes are read in gatt.ts; here is the way to
// them. A person's tap must stand at the beginning, or the browser refuses.

import { celsiusTenths, stepOf, type Unread, type Weighed, weighed } from "./gatt.ts";

// What of Web Bluetooth is used; TypeScript's own library does not have it.
interface Characteristic extends EventTarget {
	readonly value?: DataView;
	readValue(): Promise<DataView>;
	startNotifications(): Promise<unknown>;
}
interface Service {
	getCharacteristic(id: number): Promise<Characteristic>;
	getCharacteristics(id: number): Promise<Characteristic[]>;
}
interface Device extends EventTarget {
	readonly name?: string;
	readonly gatt?: {
		readonly connected: boolean;
		connect(): Promise<{ getPrimaryService(id: number): Promise<Service> }>;
		disconnect(): void;
	};
}
export interface BluetoothLike {
	requestDevice(options: { filters: { services: number[] }[] }): Promise<Device>;
}

const WEIGHT_SCALE = 0x181d;
const WEIGHT_MEASUREMENT = 0x2a9d;
const WEIGHT_SCALE_FEATURE = 0x2a9e;
const ENVIRONMENTAL_SENSING = 0x181a;
const TEMPERATURE = 0x2a6e;

/** Why there is no connection. "cancelled" asks for no words: the person closed
 * the browser's list, or nothing was found in it. */
export type NoDevice = "cancelled" | "forbidden" | "foreign" | "lost";

export class BluetoothFault extends Error {
	readonly why: NoDevice;
	constructor(why: NoDevice, cause: unknown) {
		super(why, { cause });
		this.why = why;
	}
}

const browser = (): BluetoothLike | undefined =>
	(globalThis.navigator as (Navigator & { bluetooth?: BluetoothLike }) | undefined)?.bluetooth;

/** Whether this browser can speak to Bluetooth devices at all. */
export const hasBluetooth = (): boolean => browser() !== undefined;

async function choose(service: number, bluetooth: BluetoothLike | undefined): Promise<Device> {
	if (!bluetooth) throw new BluetoothFault("forbidden", undefined);
	try {
		return await bluetooth.requestDevice({ filters: [{ services: [service] }] });
	} catch (why) {
		const name = why instanceof Error ? why.name : "";
		throw new BluetoothFault(name === "NotFoundError" ? "cancelled" : "forbidden", why);
	}
}

async function open(device: Device, id: number): Promise<Service> {
	try {
		const server = await device.gatt?.connect();
		if (!server) throw new Error("the device has no GATT server");
		return await server.getPrimaryService(id);
	} catch (why) {
		throw new BluetoothFault(reason(why), why);
	}
}

const reason = (why: unknown): NoDevice => {
	const name = why instanceof Error ? why.name : "";
	return name === "NotFoundError" || name === "NotSupportedError" ? "foreign" : "lost";
};

/** A scale that is connected. */
export interface Scale {
	name: string;
	/** The step it measures in. */
	step: { grams: number; pounds: number };
	close(): void;
}

export interface ScaleDoes {
	reading(is: Weighed | Unread): void;
	lost(): void;
}

/** Lets the person choose a scale and listens to it until `close`. Throws a
 * BluetoothFault. */
export async function connectScale(does: ScaleDoes, bluetooth = browser()): Promise<Scale> {
	const device = await choose(WEIGHT_SCALE, bluetooth);
	const service = await open(device, WEIGHT_SCALE);
	try {
		// A scale that does not say how fine it is still weighs.
		const feature = await service
			.getCharacteristic(WEIGHT_SCALE_FEATURE)
			.then((c) => c.readValue())
			.catch(() => undefined);
		const measurement = await service.getCharacteristic(WEIGHT_MEASUREMENT);
		const listening = new AbortController();
		const { signal } = listening;
		measurement.addEventListener(
			"characteristicvaluechanged",
			() => {
				if (measurement.value) does.reading(weighed(measurement.value));
			},
			{ signal },
		);
		device.addEventListener(
			"gattserverdisconnected",
			() => {
				listening.abort();
				does.lost();
			},
			{ signal },
		);
		await measurement.startNotifications();
		return {
			name: device.name ?? "",
			step: stepOf(feature),
			close: () => {
				listening.abort();
				device.gatt?.disconnect();
			},
		};
	} catch (why) {
		device.gatt?.disconnect();
		throw new BluetoothFault(reason(why), why);
	}
}

/** Lets the person choose a thermometer and reads it once: tenths of a degree
 * Celsius, or why it shows none. Throws a BluetoothFault. */
export async function readTemperature(
	bluetooth = browser(),
): Promise<{ name: string; deci: number | Unread }> {
	const device = await choose(ENVIRONMENTAL_SENSING, bluetooth);
	const service = await open(device, ENVIRONMENTAL_SENSING);
	try {
		// A device may have several sensors; the first that knows is taken.
		let deci: number | Unread = "unknown";
		for (const sensor of await service.getCharacteristics(TEMPERATURE)) {
			deci = celsiusTenths(await sensor.readValue());
			if (typeof deci === "number") break;
		}
		return { name: device.name ?? "", deci };
	} catch (why) {
		throw new BluetoothFault(reason(why), why);
	} finally {
		device.gatt?.disconnect();
	}
}
