// Turning what a camera or an album gives into a plain small JPEG. Drawing it
// anew leaves behind everything but the picture: place, time and maker are gone.

import { plainJpeg } from "./plain-jpeg.ts";
import { type Encode, type Size, shrink } from "./shrink.ts";

export interface Picture extends Size {
	bytes: Uint8Array<ArrayBuffer>;
}

/** The file as a small JPEG, turned the right way up. Rejects for what this
 * browser can't read as a picture. */
export async function pictureOf(file: Blob): Promise<Picture> {
	const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
	try {
		return await shrink(whole, encoder(whole));
	} finally {
		whole.close();
	}
}

function encoder(whole: ImageBitmap): Encode {
	const canvas = document.createElement("canvas");
	return async ({ width, height }, quality) => {
		canvas.width = width;
		canvas.height = height;
		const pen = canvas.getContext("2d", { alpha: false });
		if (!pen) throw new Error("picture: this browser draws no pictures");
		pen.imageSmoothingQuality = "high";
		pen.fillStyle = "white"; // behind what is transparent
		pen.fillRect(0, 0, width, height);
		pen.drawImage(whole, 0, 0, width, height);
		const blob = await new Promise<Blob | null>((done) => {
			canvas.toBlob(done, "image/jpeg", quality);
		});
		if (blob?.type !== "image/jpeg") throw new Error("picture: this browser makes no JPEG");
		return plainJpeg(new Uint8Array(await blob.arrayBuffer()));
	};
}
