/**
 * Cross-sections of members. mm, mm2, mm3, mm4. Local y runs over the width, z over the thickness, so `iyMm4`
 * resists bending in the plane x-z and `izMm4` bending in x-y. Rectangle: I = b d^3 / 12, S = b d^2 / 6 (standard
 * tables); torsion constant and greatest shear stress after Saint-Venant, the constant by the usual approximation
 * b t^3 (1/3 - 0.21 t/b (1 - t^4 / (12 b^4))), within 0.5 % of the series, the stress by 3 + 1.8 t/b (Roark).
 * Tests: tests/core/statics/section.test.ts
 */
export interface Section {
  readonly areaMm2: number
  readonly iyMm4: number
  readonly izMm4: number
  /** Saint-Venant torsion constant. */
  readonly jMm4: number
  /** Section moduli for stress; absent: no stress is reported for this member. */
  readonly syMm3?: number
  readonly szMm3?: number
  /** Torque over this is the greatest torsional shear stress. */
  readonly torsionMm3?: number
  /** Areas that shear deflection goes by; absent: bending alone (Euler-Bernoulli). */
  readonly shearYMm2?: number
  readonly shearZMm2?: number
}

/** Greatest side over least, within 0.5 % of the exact series for any rectangle. */
function torsionConstant(longMm: number, shortMm: number): number {
  const ratio = shortMm / longMm
  return longMm * shortMm ** 3 * (1 / 3 - 0.21 * ratio * (1 - ratio ** 4 / 12))
}

/**
 * A rectangle, `widthMm` along local y and `thicknessMm` along local z.
 * @param options.shear counts shear deflection, with 5/6 of the area (Timoshenko)
 * @throws RangeError unless both sides are above 0
 * @example rectangleSection(38, 38).iyMm4 //=> 173761.33…
 */
export function rectangleSection(
  widthMm: number,
  thicknessMm: number,
  options: { readonly shear?: boolean } = {},
): Required<Pick<Section, 'syMm3' | 'szMm3' | 'torsionMm3'>> & Section {
  if (!(widthMm > 0 && thicknessMm > 0 && widthMm < 1e6 && thicknessMm < 1e6))
    throw new RangeError(`not a section: ${widthMm} × ${thicknessMm} mm`)
  const areaMm2 = widthMm * thicknessMm
  const longMm = Math.max(widthMm, thicknessMm)
  const shortMm = Math.min(widthMm, thicknessMm)
  return {
    areaMm2,
    iyMm4: (widthMm * thicknessMm ** 3) / 12,
    izMm4: (thicknessMm * widthMm ** 3) / 12,
    jMm4: torsionConstant(longMm, shortMm),
    syMm3: (widthMm * thicknessMm ** 2) / 6,
    szMm3: (thicknessMm * widthMm ** 2) / 6,
    torsionMm3: (longMm * shortMm ** 2) / (3 + (1.8 * shortMm) / longMm),
    ...(options.shear ? { shearYMm2: (5 / 6) * areaMm2, shearZMm2: (5 / 6) * areaMm2 } : {}),
  }
}

/** Greatest shear stress in a rectangle, MPa: 3V/2A. @example shearStressMPa(500, 900) //=> 0.8333… */
export const shearStressMPa = (shearN: number, areaMm2: number): number => (1.5 * shearN) / areaMm2

/**
 * Load at which a straight strut bows out, N: pi^2 E I / (K L)^2 (Euler).
 * @param strut.k 1 for pinned ends
 * @example eulerLoadN({ eMPa: 12_000, iMm4: 173_761.33, lengthMm: 600, k: 1 }) //=> 57_165…
 */
export function eulerLoadN(strut: {
  readonly eMPa: number
  readonly iMm4: number
  readonly lengthMm: number
  readonly k: number
}): number {
  if (!(strut.lengthMm > 0 && strut.k > 0)) throw new RangeError(`not a strut length: ${strut.lengthMm} mm`)
  return (Math.PI ** 2 * strut.eMPa * strut.iMm4) / (strut.k * strut.lengthMm) ** 2
}
