// Bluetooth devices that only the browser believes in: Chromium's emulated
// adapter, driven through the browser's own debugging protocol, and the list in
// which a person chooses a device.

import type { Browser, CDPSession, Page } from "playwright-core";

/** The flags that bring Web Bluetooth to a desktop Chromium on Linux. */
export const bluetoothFlags = ["--enable-experimental-web-platform-features"];

const long = (id: number): string =>
	`0000${id.toString(16).padStart(4, "0")}-0000-1000-8000-00805f9b34fb`;
const CLIENT_CONFIGURATION = 0x2902; // without it nothing can be subscribed to

/** One characteristic: what reading it gives, and whether it tells by itself. */
export interface Fake {
	id: number;
	bytes: number[];
	tells?: boolean;
}

export interface FakeDevice {
	name: string;
	service: number;
	has: Fake[];
}

// The protocol's own types lag behind the browser.
type Send = (method: string, params?: object) => Promise<Record<string, string>>;
type Listen = (event: string, run: (params: Record<string, string>) => void) => void;

export class FakeBluetooth {
	readonly #send: Send;
	readonly #listen: Listen;
	readonly #values = new Map<string, { bytes: number[] }>();
	#devices = 0;

	private constructor(session: CDPSession) {
		this.#send = session.send.bind(session) as unknown as Send;
		this.#listen = session.on.bind(session) as unknown as Listen;
	}

	/** Turns the emulated adapter on, once in a browser's life. */
	static async on(browser: Browser): Promise<FakeBluetooth> {
		const fake = new FakeBluetooth(await browser.newBrowserCDPSession());
		await fake.#send("BluetoothEmulation.enable", { state: "powered-on", leSupported: true });
		fake.#listen("BluetoothEmulation.gattOperationReceived", ({ address, type }) => {
			void fake.#send("BluetoothEmulation.simulateGATTOperationResponse", {
				address,
				type,
				code: 0,
			});
		});
		fake.#listen("BluetoothEmulation.characteristicOperationReceived", (operation) => {
			void fake.#answer(operation);
		});
		fake.#listen("BluetoothEmulation.descriptorOperationReceived", ({ descriptorId, type }) => {
			void fake.#send("BluetoothEmulation.simulateDescriptorOperationResponse", {
				descriptorId,
				type,
				code: 0,
				...(type === "read" ? { data: "" } : {}),
			});
		});
		return fake;
	}

	async #answer({ characteristicId, type }: Record<string, string>): Promise<void> {
		const held = this.#values.get(characteristicId ?? "");
		const data = Buffer.from(held?.bytes ?? []).toString("base64");
		await this.#send("BluetoothEmulation.simulateCharacteristicOperationResponse", {
			characteristicId,
			type,
			code: 0,
			...(type === "read" ? { data } : {}),
		});
	}

	/** Puts a device within reach. Its values may be changed afterwards. */
	async add(device: FakeDevice): Promise<{ gone(): Promise<void> }> {
		this.#devices++;
		const address = `09:09:09:09:09:0${this.#devices}`;
		await this.#send("BluetoothEmulation.simulatePreconnectedPeripheral", {
			address,
			name: device.name,
			manufacturerData: [],
			knownServiceUuids: [long(device.service)],
		});
		const { serviceId } = await this.#send("BluetoothEmulation.addService", {
			address,
			serviceUuid: long(device.service),
		});
		for (const fake of device.has) {
			const { characteristicId = "" } = await this.#send("BluetoothEmulation.addCharacteristic", {
				serviceId,
				characteristicUuid: long(fake.id),
				properties: { read: true, indicate: fake.tells === true },
			});
			this.#values.set(characteristicId, fake);
			if (fake.tells) {
				await this.#send("BluetoothEmulation.addDescriptor", {
					characteristicId,
					descriptorUuid: long(CLIENT_CONFIGURATION),
				});
			}
		}
		return {
			gone: async () => {
				await this.#send("BluetoothEmulation.simulateGATTDisconnection", { address });
			},
		};
	}
}

/** Answers the browser's list of devices on this page: the first of the list,
 * which holds only devices with the service that was asked for, is chosen, or the
 * list is closed. Call it before the tap that opens the list. */
export async function answerList(page: Page, take: boolean): Promise<{ answered: Promise<void> }> {
	const session = await page.context().newCDPSession(page);
	const send = session.send.bind(session) as unknown as Send;
	const listen = session.on.bind(session) as unknown as (
		event: string,
		run: (params: { id: string; devices: { id: string }[] }) => void,
	) => void;
	await send("DeviceAccess.enable");
	let told: () => void = () => {};
	const answered = new Promise<void>((resolve) => {
		told = resolve;
	});
	let asked = false; // the browser tells of one list twice
	listen("DeviceAccess.deviceRequestPrompted", ({ id, devices: [first] }) => {
		if (asked || (take && !first)) return;
		asked = true;
		// An answer before the list is drawn is lost.
		setTimeout(() => {
			const answer = take
				? send("DeviceAccess.selectPrompt", { id, deviceId: first?.id })
				: send("DeviceAccess.cancelPrompt", { id });
			void answer.then(() => session.detach()).then(told);
		}, 500);
	});
	return { answered };
}
