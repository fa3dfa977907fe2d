/* Bytes as text inside a page: four bytes are five letters, of those from "(" on, where "}" stands for "<", which may end a
 * script, and "~" for "\\". What is left at the end, n bytes, is n + 1 letters. */

function value(letter: number): number {
    const code = letter === 125 ? 60 : letter === 126 ? 92 : letter;
    return code - 40;
}

/** The bytes of a text as encode85() of build.mjs makes it. */
export function decode85(text: string): Uint8Array {
    const bytes = new Uint8Array(Math.floor((text.length * 4) / 5));
    let at = 0;
    for (let from = 0; from < text.length; from += 5) {
        let word = 0;
        for (let i = 0; i < 5; i += 1) {
            word = word * 85 + (from + i < text.length ? value(text.charCodeAt(from + i)) : 84);
        }
        for (let i = 3; i >= 0 && at < bytes.length; i -= 1) {
            bytes[at] = Math.floor(word / 256 ** i) % 256;
            at += 1;
        }
    }
    return bytes;
}
