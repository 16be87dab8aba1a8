/**
 * How far a value of the trade is vouched for: in print, its source named; common practice, nobody's in particular; written down from
 * memory, to be checked before anybody relies on it; worked out from other values.
 */
export type SourceMark = "published" | "common-practice" | "from-memory" | "derived";
