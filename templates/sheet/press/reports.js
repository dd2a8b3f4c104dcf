/*
 * What is in a report. A keyboard's report is HID 1.11 appendix B.1's eight bytes, then a bit for each
 * usage; a report of media keys is its number, then a bit for each key of its kind. A pointer's report is
 * its number, a bit for each button, and what each of four axes has moved.
 */
(() => {
    const BOOT_BYTES = 8;

    const bitsOf = (bytes) => {
        const found = [];
        bytes.forEach((byte, place) => {
            for (let bit = 0; bit < 8; bit++) {
                if ((byte >> bit) & 1) {
                    found.push(8 * place + bit);
                }
            }
        });
        return found;
    };

    /* The modifiers of a keyboard's report, a bit each, and the usages that are down. */
    pressIt.downIn = (report) => ({ modifiers: report[0], usages: bitsOf(report.slice(BOOT_BYTES)) });

    pressIt.hex = (bytes) =>
        Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0").toUpperCase()).join(" ");

    const sentence = (words) => (words.length === 0 ? "nothing down" : `${words.join("+")} down`);

    /* A keyboard's report in words, such as `Shift+A down`. */
    pressIt.wordsOf = (data, report) => {
        const { modifiers, usages } = pressIt.downIn(report);
        const held = bitsOf([modifiers]).map((bit) => data.modifiers[bit]);
        return sentence([...held, ...usages.map((usage) => data.words[usage] || `usage ${usage}`)]);
    };

    /* The same of a report of media keys. */
    pressIt.mediaWordsOf = (data, report) =>
        sentence(bitsOf(report.slice(1)).map((bit) => data.media[report[0]][bit]));

    const AXES = [
        ["# left", "# right"],
        ["# up", "# down"],
        ["wheel # down", "wheel # up"],
        ["wheel # left", "wheel # right"],
    ];
    const POINTER_REPORT = 4;
    const STILL_MS = 50;
    const LONGEST_MS = 250; /* movement is told of once there was none for so long, or it went on for so long */

    pressIt.isOfPointer = (report) => report[0] === POINTER_REPORT;

    /* The buttons of a pointer's report that are down, by their names. */
    pressIt.buttonsOf = (report) => bitsOf([report[1]]).map((bit) => `Button${bit + 1}`);

    /* What each axis has moved, in words. */
    pressIt.movedWords = (moved) =>
        moved
            .map((steps, axis) => [steps, AXES[axis][steps > 0 ? 1 : 0]])
            .filter(([steps]) => steps !== 0)
            .map(([steps, way]) => way.replace("#", Math.abs(steps)));

    /* The reports of a pointer, added up: `tell` gets words, and the last report, now and then. */
    pressIt.Movement = class {
        constructor(tell) {
            this.tell = tell;
            this.last = null;
            this.moved = [0, 0, 0, 0];
            this.total = [0, 0, 0, 0];
            this.buttons = 0;
            this.beganMs = 0;
            this.lastMs = 0;
        }

        get moves() {
            return this.moved.some((steps) => steps !== 0);
        }

        take(report, ms) {
            if (!this.moves) {
                this.beganMs = ms;
            }
            this.lastMs = ms;
            this.last = report;
            new Int8Array(report.slice(2)).forEach((steps, axis) => {
                this.moved[axis] += steps;
                this.total[axis] += steps;
            });
            const isNews = report[1] !== this.buttons;
            this.buttons = report[1];
            if (isNews) {
                this.told(ms);
            }
        }

        pass(ms) {
            const isTime = ms - this.lastMs >= STILL_MS || ms - this.beganMs >= LONGEST_MS;
            if (this.moves && isTime) {
                this.told(ms);
            }
        }

        told(ms) {
            const down = pressIt.buttonsOf(this.last);
            const moved = pressIt.movedWords(this.moved);
            const words = [
                ...(down.length === 0 ? [] : [`${down.join("+")} down`]),
                ...(moved.length === 0 ? [] : [`moved ${moved.join(", ")}`]),
            ];
            this.moved = [0, 0, 0, 0];
            this.tell(ms, words.join(", ") || "nothing down", this.last);
        }
    };
})();
