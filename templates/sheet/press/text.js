/*
 * A text field, as a computer with a US layout fills it from a keyboard's reports.
 *
 * With Ctrl, Alt (the right one too: a US layout has no AltGr) or GUI down, a key is a shortcut and types
 * nothing here. Shift selects nothing, and a key that is held does not repeat.
 */
(() => {
    const SHIFTS = 0x22; /* left and right, in a report's first byte */

    const lineStart = (text) => text.lastIndexOf("\n") + 1;

    const lineEnd = (text) => {
        const found = text.indexOf("\n");
        return found < 0 ? text.length : found;
    };

    pressIt.UsText = class {
        constructor(us) {
            this.us = us;
            this.capsLock = false;
            this.numLock = true; /* as most computers start; common practice, no source */
            this.down = [];
            this.clear();
        }

        clear() {
            this.before = "";
            this.after = "";
        }

        /* Nobody is there to hold a key any more; text and locks are the computer's. */
        unplug() {
            this.down = [];
        }

        /* The output report: Num Lock and Caps Lock (HID 1.11 appendix B.1). */
        get leds() {
            return (this.numLock ? 0x01 : 0) | (this.capsLock ? 0x02 : 0);
        }

        /* A keyboard's report arrives: what has newly gone down is typed. */
        take(report) {
            const { modifiers, usages } = pressIt.downIn(report);
            for (const usage of usages) {
                if (!this.down.includes(usage)) {
                    this.press(usage, modifiers);
                }
            }
            this.down = usages;
        }

        press(usage, modifiers) {
            if (usage === this.us.caps_lock) {
                this.capsLock = !this.capsLock;
            } else if (usage === this.us.num_lock) {
                this.numLock = !this.numLock;
            } else if ((modifiers & ~SHIFTS) === 0) {
                this.type(usage, (modifiers & SHIFTS) !== 0);
            }
        }

        type(pressed, shift) {
            const isNumber = pressed in this.us.numbers;
            if (isNumber && this.numLock && !shift) {
                this.insert(this.us.numbers[pressed]);
                return;
            }
            const usage = isNumber ? this.us.numbers_else[pressed] : pressed;
            if (usage in this.us.signs) {
                this.insert(this.sign(...this.us.signs[usage], shift));
            } else if (usage in this.us.edits) {
                this.edit(this.us.edits[usage]);
            }
        }

        sign(plain, shifted, shift) {
            const isLetter = plain !== shifted && plain.toUpperCase() === shifted;
            return shift !== (isLetter && this.capsLock) ? shifted : plain;
        }

        insert(sign) {
            this.before += sign;
        }

        edit(what) {
            const { before, after } = this;
            switch (what) {
                case "delete before":
                    this.before = before.slice(0, -1);
                    break;
                case "delete after":
                    this.after = after.slice(1);
                    break;
                case "left":
                    this.caret(before.length - 1);
                    break;
                case "right":
                    this.caret(before.length + 1);
                    break;
                case "start of line":
                    this.caret(lineStart(before));
                    break;
                case "end of line":
                    this.caret(before.length + lineEnd(after));
                    break;
                case "up":
                    this.toLine(lineStart(before) - 1);
                    break;
                case "down":
                    this.toLine(before.length + lineEnd(after) + 1);
                    break;
            }
        }

        caret(wanted) {
            const text = this.before + this.after;
            const at = Math.min(Math.max(wanted, 0), text.length);
            this.before = text.slice(0, at);
            this.after = text.slice(at);
        }

        /* Move to the line that `inside` is in, the column kept; above the first line there is none. */
        toLine(inside) {
            const text = this.before + this.after;
            if (inside < 0) {
                return;
            }
            const start = lineStart(text.slice(0, inside));
            const column = this.before.length - lineStart(this.before);
            this.caret(start + Math.min(column, lineEnd(text.slice(start))));
        }
    };
})();
