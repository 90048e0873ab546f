/** Numbers as a maker reads them in a title or a note: millimetres to 0.1, degrees to 0.1. */
export const mmText = (valueMm: number): string => `${(Math.round(valueMm * 10) / 10 + 0).toString()} mm`
export const degText = (valueRad: number): string => `${((Math.abs(valueRad) * 180) / Math.PI).toFixed(1)}°`
export const sizeText = (lengthUm: number, widthUm: number): string =>
  `${(lengthUm / 1000).toFixed(0)} × ${(widthUm / 1000).toFixed(0)} mm`
export const passesText = (count: number): string => (count === 1 ? 'one pass' : `${count} passes`)
