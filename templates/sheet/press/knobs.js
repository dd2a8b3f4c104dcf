/*
 * Knobs, as if somebody turned them: each step's states go through the two contacts, one a millisecond.
 */
(() => {
    const CONTACTS = [0, 1, 3, 2]; /* neither, A, both, B: to the right */

    pressIt.Knobs = class {
        constructor(knobs) {
            this.states = knobs.map((knob) => knob.states);
            this.stop();
        }

        /* Every knob is at a detent, as the engine has it when it starts. */
        stop() {
            this.places = this.states.map(() => 0);
            this.ahead = this.states.map(() => 0);
        }

        /* Turn one, to the left by steps below 0. */
        turn(number, steps) {
            this.ahead[number] += steps * this.states[number];
        }

        /* A millisecond passes: tell `move` what the contacts of a knob are that turns. */
        tick(move) {
            this.ahead.forEach((states, number) => {
                if (states !== 0) {
                    const way = Math.sign(states);
                    this.ahead[number] -= way;
                    this.places[number] += way;
                    move(number, CONTACTS[this.places[number] & 3]);
                }
            });
        }
    };

    /* Buttons of `section` turn knobs: data-turn is a knob's number, data-way a step. */
    pressIt.listenToTurns = (section, board) => {
        for (const button of section.querySelectorAll("[data-turn]")) {
            const { turn, way } = button.dataset;
            button.addEventListener("click", () => board.turn(Number(turn), Number(way)));
        }
    };
})();
