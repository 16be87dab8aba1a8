declare const unitName: unique symbol;

/**
 * A number that carries its physical unit in its type, so that hertz and cents cannot be mixed.
 * At run time it is a plain number.
 */
export type Unit<Name extends string> = number & { readonly [unitName]: Name };
