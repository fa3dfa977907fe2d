/* Undo for everything: whole documents, newest last. They share what did not change. */
export interface History<T> {
    past: readonly T[];
    present: T;
    future: readonly T[];
}

export function begun<T>(present: T): History<T> {
    return { past: [], present, future: [] };
}

/** Changes in one place in quick succession are one step, so that undo does not go letter by letter. */
export function done<T>(history: History<T>, present: T, joins: boolean): History<T> {
    return joins && history.past.length > 0
        ? { past: history.past, present, future: [] }
        : { past: [...history.past, history.present], present, future: [] };
}

export function undone<T>(history: History<T>): History<T> {
    const previous = history.past[history.past.length - 1];
    return previous === undefined
        ? history
        : { past: history.past.slice(0, -1), present: previous, future: [history.present, ...history.future] };
}

export function redone<T>(history: History<T>): History<T> {
    const [next, ...rest] = history.future;
    return next === undefined ? history : { past: [...history.past, history.present], present: next, future: rest };
}
