/* Where to go first, in the engine's words: the parts of rank/1 that the page reads. */

/** What the server says of where to go first, and the day it said so. */
export interface Ranked {
    day: string;
    ranking: Ranking;
}

export interface Ranking {
    sites: { site: string; name: string; says: string[] }[];
    without_station: number;
    calibration: { says: string[]; groups: { says: string[] }[] };
}
