/** Names an instrument of the catalogue: `fiddle`, `trumpet-bb`. */
export type PlayerId = string;
