// The phone's rear camera: asked for once, with its light where it has one, and
// let go as soon as nobody looks. WebKit asks the person again for every
// request, so a screen that is open keeps the one it has.

/** Why there is no picture. */
export type CameraFault = "denied" | "none" | "busy" | "insecure";

// What the DOM types don't know yet (W3C, "MediaStream Image Capture").
type WithTorch = { torch?: boolean };

export class Camera {
	readonly stream: MediaStream;
	readonly #track: MediaStreamTrack | undefined;

	private constructor(stream: MediaStream) {
		this.stream = stream;
		this.#track = stream.getVideoTracks()[0];
	}

	/** Asks for the camera; says in a word why there is none. */
	static async open(devices: MediaDevices | undefined): Promise<Camera | CameraFault> {
		// Without a secure connection browsers hide the camera altogether.
		if (!devices?.getUserMedia) return "insecure";
		try {
			return new Camera(
				await devices.getUserMedia({
					audio: false,
					video: {
						facingMode: { ideal: "environment" },
						width: { ideal: 1280 },
						height: { ideal: 720 },
					},
				}),
			);
		} catch (why) {
			return faultOf(why);
		}
	}

	/** Whether the light can be switched; known only while the camera runs. */
	get hasLight(): boolean {
		const can = this.#track?.getCapabilities?.() as WithTorch | undefined;
		return can?.torch === true;
	}

	/** Switches the light; false if the camera would not. */
	async light(on: boolean): Promise<boolean> {
		try {
			await this.#track?.applyConstraints({ advanced: [{ torch: on } as MediaTrackConstraintSet] });
			return true;
		} catch {
			return false;
		}
	}

	/** Calls `run` when somebody else takes the camera away. */
	onTaken(run: () => void): void {
		this.#track?.addEventListener("ended", run, { once: true });
	}

	/** Lets the camera go, its light too. */
	close(): void {
		for (const track of this.stream.getTracks()) track.stop();
	}
}

/** W3C, "Media Capture and Streams", getUserMedia: what its failures are called. */
function faultOf(why: unknown): CameraFault {
	switch ((why as { name?: string } | null)?.name) {
		case "NotAllowedError":
		case "SecurityError":
			return "denied";
		case "NotFoundError":
		case "OverconstrainedError":
			return "none";
		default:
			return "busy";
	}
}
