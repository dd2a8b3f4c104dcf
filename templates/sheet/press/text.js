/*
 * A text field, as a computer with a layout fills it from a keyboard's reports.
 *
 * With Ctrl, Alt or GUI down, a key is a shortcut and types nothing here, unless that is how the layout's
 * computer has AltGr; a US layout has none. Shift selects nothing, and a key that is held does not repeat.
 */
(() => {
    const SHIFTS = 0x22; /* left and right, in a report's first byte */

    const lineStart = (text) => text.lastIndexOf("\n") + 1;

    const lineEnd = (text) => {
        const found = text.indexOf("\n");
        return found < 0 ? text.length : found;
    };

    pressIt.Text = class {
        constructor(types) {
            this.types = types;
            this.dead = null; /* the dead key that waits for the next key */
            this.capsLock = false;
            this.numLock = true; /* as most computers start; common practice, no source */
            this.down = [];
            this.clear();
        }

        clear() {
            this.before = "";
            this.after = "";
        }

        /* Nobody is there to hold a key any more; text, locks and a dead key are the computer's. */
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
            if (usage === this.types.caps_lock) {
                this.capsLock = !this.capsLock;
            } else if (usage === this.types.num_lock) {
                this.numLock = !this.numLock;
            } else {
                this.type(usage, this.level(modifiers));
            }
        }

        /* Plain, Shift, AltGr, and both, from 0; undefined where the modifiers make a shortcut. */
        level(modifiers) {
            const shift = (modifiers & SHIFTS) !== 0 ? 1 : 0;
            const others = modifiers & ~SHIFTS;
            if (others === 0) {
                return shift;
            }
            return this.types.thirds.includes(others) ? 2 + shift : undefined;
        }

        type(usage, level) {
            const dead = this.dead;
            this.dead = null;
            if (this.types.numbers.includes(usage) && (level === 1 || !this.numLock)) {
                this.other(this.types.numbers_else[usage], level);
                return;
            }
            const mark = this.mark(usage, level);
            if (!mark) {
                this.other(usage, level);
            } else if (dead !== null) {
                this.insert(this.types.dead[dead][mark] || "");
            } else if (mark in this.types.dead) {
                this.dead = mark;
            } else {
                this.insert(mark);
            }
        }

        mark(usage, level) {
            const { signs, locked } = this.types;
            const marks = (this.capsLock && locked[usage]) || signs[usage] || [];
            return marks[level];
        }

        /* What else a key does to the text, as Enter and Backspace. */
        other(usage, level) {
            const { breaks, edits } = this.types;
            if (level === undefined || level > 1) {
                return;
            }
            if (usage in breaks) {
                this.insert(breaks[usage][level]);
            } else if (usage in edits) {
                this.edit(edits[usage]);
            }
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
