import assert from "node:assert/strict";
import { test } from "node:test";
import { choose, localeOf } from "./language.ts";

test("without a choice the browser's first language that the app has is spoken", () => {
	assert.equal(choose(null, ["fr-CA", "en-NZ"]), "en");
	assert.equal(choose(null, ["fr-CA"]), "en");
	assert.equal(choose(null, ["ca", "es-MX", "en"]), "es");
	assert.equal(choose("en", ["es-MX"]), "en", "a choice beats the browser's");
	assert.equal(choose("tlh", ["fr-CA"]), "en", "a choice that this version does not have");
});

test("numbers and dates follow the browser's country where it speaks the language", () => {
	assert.equal(localeOf("en", ["fr-CA", "en-US"]), "en-US");
	assert.equal(localeOf("en", ["fr-CA"]), "en-GB");
	assert.equal(localeOf("es", ["en-US", "es-MX"]), "es-MX");
	assert.equal(localeOf("es", ["en-US"]), "es");
});
