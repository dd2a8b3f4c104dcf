/*
 * "Press it": a keyboard's own engine, live in a page. A plain script, small files one behind the other;
 * nothing is fetched, so that it runs from a file on a disk.
 *
 * The page has the section of press.html.j2 and, somewhere, an element with data-press="area" that holds
 * a picture of the keys: elements with data-key="NAME" and an aria-label, of
 * which the script makes buttons; without it they are none, and the area is one stop of Tab. A key gets the class `is-down` while it is pressed, `is-undecided` while it may still be a tap or a hold,
 * and `is-waiting` while it waits for such a key; so do other pictures of the page. Where the page has a
 * Content-Security-Policy, it must allow 'wasm-unsafe-eval'.
 *
 * The data is one JSON object in the element of id "press-data":
 *
 *   format    3
 *   keyboard  its name
 *   engine    its engine as a WebAssembly module in base64, or null (see web.h of the firmware's port `web`)
 *   reason    where there is no engine: why, as a sentence
 *   keys      in plate order: {name, crossing: [driven line, sensed line], or null for a key without}
 *   knobs     where there are some: {name, states}, the states of a step, in the order of their numbers
 *   layers    their names, the base layer first
 *   lights    the names of its lights, by their numbers
 *   words     the word of each usage of the keyboard page, by its number
 *   modifiers the word of each modifier, by its bit in a report's first byte
 *   media     by the number of a report of media keys, the words of its bits
 *   pointer   whether some key is a pointer's: its reports are in report number 4
 *   types     what the computer makes of usages: set_to, its layout in words, or null for a US one; signs
 *             {usage: [plain, with Shift, and so with AltGr]}, each a sign, the longer name of a dead key,
 *             or null; locked, the same of keys that Caps Lock changes; thirds, what else than Shift is
 *             down for a sign behind AltGr; dead {dead key: {sign after it: what both write}}; breaks
 *             {usage: [plain, with Shift]}; numbers, usages of the keypad that are signs while Num Lock is
 *             on, and numbers_else {usage: usage}, what they are without; edits {usage: what}; caps_lock
 *             and num_lock, their usages
 *   computer  the board's key, by its name, for a key of the computer's own keyboard (KeyboardEvent.code)
 */
"use strict";

const pressIt = {};

(() => {
    const bytesOf = (base64) => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));

    /* A keyboard's engine, from power-on. Time passes in it when it is told so. */
    pressIt.Engine = class {
        static async load(base64) {
            const { instance } = await WebAssembly.instantiate(bytesOf(base64), {});
            return new pressIt.Engine(instance.exports);
        }

        constructor(exports) {
            this.c = exports;
            this.start();
        }

        /* Plug it in: what it keeps over a power cut is as it was. */
        start() {
            this.c.web_start();
        }

        move([drive, sense], isDown) {
            (isDown ? this.c.web_close : this.c.web_open)(drive, sense);
        }

        /* Close these contacts of a knob: A is bit 0, B is bit 1. */
        knob(number, contacts) {
            this.c.web_knob(number, contacts);
        }

        /*
         * Let a millisecond pass; returns the reports that leave the keyboard in it, or null for none.
         * What it does after it has left for its boot loader is no chip's any more.
         */
        tick() {
            this.c.web_step();
            const report = this.taken(this.c.web_take_report());
            const media = this.taken(this.c.web_take_media());
            this.c.web_advance(1);
            return this.hasLeft ? { report: null, media: null } : { report, media };
        }

        /* Whether each light is lit, by its number. */
        lit(number) {
            return ((this.c.web_lit() >>> number) & 1) === 1;
        }

        /* The computer tells which of its locks are on, in an output report. */
        hear(leds) {
            this.c.web_leds(leds);
        }

        taken(length) {
            if (length < 0) {
                return null;
            }
            return new Uint8Array(this.c.memory.buffer, this.c.web_bytes(), length).slice();
        }

        /* The numbers of the layers that are on, from the top down; the base layer, 0, is the last. */
        layers() {
            const on = this.c.web_layers() >>> 1; /* without the base layer */
            const found = this.c.web_base() === 0 ? [0] : [this.c.web_base(), 0];
            for (let layer = 1; layer < 32; layer++) {
                if ((on >>> (layer - 1)) & 1) {
                    found.unshift(layer);
                }
            }
            return found;
        }

        /* Keys by their numbers: one of which it is not decided what it means, and those that wait for it. */
        waiting() {
            const found = [];
            for (let key = this.c.web_waiting(0); key >= 0; key = this.c.web_waiting(found.length)) {
                found.push(key);
            }
            return found;
        }

        /* Whether it has left for its chip's boot loader, and is no keyboard any more. */
        get hasLeft() {
            return this.c.web_boot_loads() > 0;
        }
    };
})();
