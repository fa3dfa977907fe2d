/* Bytes as text inside a page: four bytes are five letters, of those from "(" on, where "}" stands for "<", which may end a
 * script, and "~" for "\\". What is left at the end, n bytes, is n + 1 letters. */

const GROUP_BYTES = 4;
const GROUP_LETTERS = 5;
const ALL_LETTERS = 85;
const FIRST_LETTER = "(".charCodeAt(0);

function value(letter: string): number {
    const meant = letter === "}" ? "<" : letter === "~" ? "\\" : letter;
    return meant.charCodeAt(0) - FIRST_LETTER;
}

/** The bytes of a text as encode85() of build.mjs makes it. */
export function decode85(text: string): Uint8Array<ArrayBuffer> {
    const groups = Math.ceil(text.length / GROUP_LETTERS);
    const words = new DataView(new ArrayBuffer(groups * GROUP_BYTES));
    for (let group = 0; group < groups; group += 1) {
        let word = 0;
        for (let i = 0; i < GROUP_LETTERS; i += 1) {
            const letter = text[group * GROUP_LETTERS + i];
            word = word * ALL_LETTERS + (letter === undefined ? ALL_LETTERS - 1 : value(letter));
        }
        words.setUint32(group * GROUP_BYTES, word);
    }
    return new Uint8Array(words.buffer, 0, Math.floor((text.length * GROUP_BYTES) / GROUP_LETTERS));
}
