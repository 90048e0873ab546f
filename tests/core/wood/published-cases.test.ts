/**
 * Moisture, movement and strength of wood against the Wood Handbook (FPL-GTR-190, 2010; WH below), ASTM and a magazine's
 * worked example. «Memory»: the number was recalled and not read again.
 */
import { densityKgPerM3At12 } from '#lib/core/wood/density'
import {
  equilibriumMoisturePct,
  propertyAtMoisture,
  sizeChange,
  sizeChangeFromShrinkage,
} from '#lib/core/wood/moisture'
import { type SpeciesValueName, speciesById } from '#lib/core/wood/species'
import { clearAllowable, hankinson } from '#lib/core/wood/strength'
import { judgePublishedCases, type PublishedCase } from '../published-cases'

/** 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm, by definition. */
const PSI_MPA = 4.4482216152605 / 25.4 ** 2
const FACTOR = { psi: PSI_MPA, 'million psi': 1e6 * PSI_MPA, lbf: 4.4482216152605, '1': 1 } as const

/** WH Table 4-2: degrees Fahrenheit, relative humidity %, equilibrium moisture %. */
const EMC: readonly (readonly [string, number, number, number])[] = [
  ['emc-01', 30, 50, 9.5],
  ['emc-02', 50, 65, 12.3],
  ['emc-03', 60, 40, 7.8],
  ['emc-04', 70, 30, 6.2],
  ['emc-05', 70, 35, 6.9],
  ['emc-06', 70, 40, 7.7],
  ['emc-07', 70, 50, 9.2],
  ['emc-09', 70, 80, 16.0],
  ['emc-10', 80, 50, 9.1],
  ['emc-12', 100, 90, 19.5],
  ['emc-13', 150, 50, 7.4],
  ['emc-14', 200, 50, 5.8],
]

/** WH eq. 13-2 by Table 13-5: flatsawn mm, from and to % moisture, change in mm. */
const CHANGE: readonly (readonly [string, string, number, number, number, number])[] = [
  ['dimchange-05', 'redOak', 285.75, 6, 10, 4.218],
  ['dimchange-06', 'redOak', 300, 6, 12, 6.642],
  ['dimchange-08', 'whiteOak', 250, 7, 11, 3.65],
  ['dimchange-14', 'redAlder', 200, 6, 9, 1.536],
]

/** WH Table 4-3, green to ovendry, %: radial, tangential. */
const SHRINKAGE: readonly (readonly [string, string, number, number])[] = [
  ['shrinkage-01', 'redAlder', 4.4, 7.3],
  ['shrinkage-02', 'whiteAsh', 4.9, 7.8],
  ['shrinkage-04', 'yellowBirch', 7.3, 9.5],
  ['shrinkage-08', 'yellowPoplar', 4.6, 8.2],
  ['shrinkage-11', 'hardMaple', 4.8, 9.9],
]

/**
 * WH Tables 5-3b and 5-5b at 12 % moisture, inch-pound; mahogany as printed in the 1999 edition, Table 4-5b. Numbers 59 to
 * 65 are from memory.
 */
const PROPERTIES: readonly (readonly [string, string, SpeciesValueName, number, keyof typeof FACTOR])[] = [
  ['woodprop-01', 'redAlder', 'moeMPa', 1.38, 'million psi'],
  ['woodprop-03', 'redAlder', 'cPerpMPa', 440, 'psi'],
  ['woodprop-05', 'whiteAsh', 'moeMPa', 1.74, 'million psi'],
  ['woodprop-07', 'whiteAsh', 'cPerpMPa', 1160, 'psi'],
  ['woodprop-08', 'whiteAsh', 'shearMPa', 1910, 'psi'],
  ['woodprop-09', 'beech', 'moeMPa', 1.72, 'million psi'],
  ['woodprop-10', 'beech', 'cParMPa', 7300, 'psi'],
  ['woodprop-11', 'beech', 'cPerpMPa', 1010, 'psi'],
  ['woodprop-13', 'yellowBirch', 'moeMPa', 2.01, 'million psi'],
  ['woodprop-15', 'yellowBirch', 'cPerpMPa', 970, 'psi'],
  ['woodprop-17', 'blackCherry', 'moeMPa', 1.49, 'million psi'],
  ['woodprop-18', 'blackCherry', 'cParMPa', 7110, 'psi'],
  ['woodprop-19', 'blackCherry', 'cPerpMPa', 690, 'psi'],
  ['woodprop-20', 'blackCherry', 'shearMPa', 1700, 'psi'],
  ['woodprop-21', 'hardMaple', 'morMPa', 15800, 'psi'],
  ['woodprop-22', 'yellowBirch', 'morMPa', 16600, 'psi'],
  ['woodprop-25', 'redOak', 'morMPa', 14300, 'psi'],
  ['woodprop-26', 'whiteOak', 'morMPa', 15200, 'psi'],
  ['woodprop-27', 'hardMaple', 'cParMPa', 7830, 'psi'],
  ['woodprop-30', 'hardMaple', 'shearMPa', 2330, 'psi'],
  ['woodprop-31', 'redOak', 'hardnessN', 1290, 'lbf'],
  ['woodprop-33', 'ponderosaPine', 'morMPa', 9400, 'psi'],
  ['woodprop-36', 'ponderosaPine', 'cPerpMPa', 580, 'psi'],
  ['woodprop-37', 'ponderosaPine', 'shearMPa', 1130, 'psi'],
  ['woodprop-39', 'ponderosaPine', 'g12', 0.4, '1'],
  ['woodprop-40', 'teak', 'morMPa', 14600, 'psi'],
  ['woodprop-42', 'teak', 'cParMPa', 8410, 'psi'],
  ['woodprop-43', 'teak', 'shearMPa', 1890, 'psi'],
  ['woodprop-47', 'mahogany', 'cParMPa', 6780, 'psi'],
  ['woodprop-49', 'mahogany', 'hardnessN', 800, 'lbf'],
  ['woodprop-50', 'douglasFir', 'morMPa', 12400, 'psi'],
  ['woodprop-51', 'douglasFir', 'moeMPa', 1.95, 'million psi'],
  ['woodprop-52', 'douglasFir', 'hardnessN', 710, 'lbf'],
  ['woodprop-54', 'blackWalnut', 'moeMPa', 1.68, 'million psi'],
  ['woodprop-56', 'yellowPoplar', 'moeMPa', 1.58, 'million psi'],
  ['woodprop-57', 'longleafPine', 'morMPa', 14500, 'psi'],
  ['woodprop-59', 'easternWhitePine', 'morMPa', 8600, 'psi'],
  ['woodprop-60', 'loblollyPine', 'morMPa', 12800, 'psi'],
  ['woodprop-61', 'sitkaSpruce', 'morMPa', 10200, 'psi'],
  ['woodprop-62', 'westernRedcedar', 'morMPa', 7500, 'psi'],
  ['woodprop-63', 'softMaple', 'morMPa', 13400, 'psi'],
  ['woodprop-64', 'redAlder', 'morMPa', 9800, 'psi'],
  ['woodprop-65', 'blackCherry', 'morMPa', 12300, 'psi'],
]

/** WH eq. 5-3, Table 5-13 (memory): at 12 %, green, at so much moisture, meeting at. The first is printed in its text. */
const AT_MOISTURE: readonly (readonly [string, string, number, number, number, number, number, number])[] = [
  ['moistadj-01', 'white ash, bending, kPa', 103_000, 66_000, 8, 24, 119_500, 100],
  ['moistadj-02', 'sugar maple, bending, kPa', 109_000, 65_000, 8, 25, 127_793, 20],
  ['moistadj-03', 'ponderosa pine, bending, psi', 9400, 5100, 15, 25, 8163, 3],
  ['moistadj-04', 'ponderosa pine, along the grain, psi', 5320, 2450, 6, 25, 7609, 3],
  ['moistadj-05', 'nothing changes at 12 %', 1.29, 1, 12, 25, 1.29, 1e-9],
  ['moistadj-06', 'green from the meeting point on', 9400, 5100, 25, 25, 5100, 0.5],
]

const share = (id: string, value: SpeciesValueName, unit: keyof typeof FACTOR): number =>
  (speciesById(id)[value] ?? Number.NaN) / FACTOR[unit]

const cases: PublishedCase[] = [
  ...EMC.map(([id, degF, humidityPct, expected]) => ({
    id,
    is: `WH Table 4-2, ${degF} F at ${humidityPct} %`,
    ...{ expected, within: 0.1 },
    got: () => equilibriumMoisturePct({ tempC: ((degF - 32) * 5) / 9, humidity: humidityPct / 100 }),
  })),
  {
    id: 'dimchange-02',
    is: 'WH eq. 13-2, printed: white fir, 232 mm from 8 to 11 %, then mm (its coefficient from memory)',
    ...{ expected: 233.7, within: 0.1 },
    got: () => 232 + sizeChange({ size: 232, coefficient: 0.00245, fromPct: 8, toPct: 11 }),
  },
  {
    id: 'dimchange-03',
    is: 'woodworking magazine, September 2021, printed: red alder, 8 in, 6 % of moisture, in',
    ...{ expected: 0.1248, within: 0.0005 },
    got: () => sizeChange({ size: 8, coefficient: 0.0026, fromPct: 6, toPct: 12 }),
  },
  ...CHANGE.map(([id, species, size, fromPct, toPct, expected]) => ({
    id,
    is: `WH eq. 13-2 and Table 13-5, ${species}, ${size} mm from ${fromPct} to ${toPct} %, mm`,
    ...{ expected, within: 0.01 },
    got: () => sizeChange({ size, coefficient: speciesById(species).ctPerPct, fromPct, toPct }),
  })),
  {
    id: 'dimchange-16',
    is: 'WH eq. 13-3 (memory): sugar maple, 250 mm from green to 12 %, mm',
    ...{ expected: -14.85, within: 0.02 },
    got: () =>
      sizeChangeFromShrinkage({
        size: 250,
        shrinkagePct: speciesById('hardMaple').shrinkageTangentialPct,
        fromPct: 30,
        toPct: 12,
      }),
  },
  ...SHRINKAGE.flatMap(([id, species, radial, tangential]) =>
    (
      [
        ['r', 'shrinkageRadialPct', radial],
        ['t', 'shrinkageTangentialPct', tangential],
      ] as const
    ).map(([letter, name, expected]) => ({
      id: `${id}${letter}`,
      is: `WH Table 4-3, ${species}, ${name}`,
      ...{ expected, within: 0.05 },
      got: () => speciesById(species)[name],
    })),
  ),
  ...PROPERTIES.map(([id, species, value, expected, unit]) => ({
    id,
    is: `WH Tables 5-3b and 5-5b, ${species}, ${value}, ${unit}`,
    ...{ expected, within: expected * 1e-5 },
    got: () => share(species, value, unit),
  })),
  // Printed to three figures.
  {
    id: 'woodprop-66',
    is: 'WH Table 5-3a, sugar maple, bending, kPa',
    ...{ expected: 109_000, within: 500 },
    got: () => 1000 * speciesById('hardMaple').morMPa,
  },
  {
    id: 'woodprop-68',
    is: 'WH Table 5-3a, sugar maple, across the grain, kPa',
    ...{ expected: 10_100, within: 50 },
    got: () => 1000 * (speciesById('hardMaple').cPerpMPa ?? Number.NaN),
  },
  {
    id: 'woodprop-70',
    is: '1.82 million psi of red oak, in MPa',
    ...{ expected: 12_548, within: 2 },
    got: () => speciesById('redOak').moeMPa,
  },
  {
    id: 'woodprop-71',
    is: 'density at 12 % of G 0.63, kg/m3 (705 printed for red oak)',
    ...{ expected: 705.6, within: 1 },
    got: () => densityKgPerM3At12(0.63),
  },
  ...AT_MOISTURE.map(([id, is, at12, green, moisturePct, meetingPct, expected, within]) => ({
    ...{ id, expected, within },
    is: `WH eq. 5-3, ${is}`,
    got: () => propertyAtMoisture({ at12, green, moisturePct, meetingPct }),
  })),
  {
    id: 'hankinson-02',
    is: 'WH eq. 5-2 (memory), 6760 and 1010 psi across the grain',
    ...{ expected: 1010, within: 1 },
    got: () => hankinson(6760, 1010, Math.PI / 2),
  },
  {
    id: 'allowable-01',
    is: 'ASTM D2555 and D245 (memory), (mean - 1.645 s) / 2.3, red oak bending, psi',
    ...{ expected: 4581, within: 3 },
    got: () => clearAllowable({ mean: 14_300, variation: 0.16, divisor: 2.3 }),
  },
  {
    id: 'allowable-02',
    is: 'the same over 2.1, ponderosa pine, psi',
    ...{ expected: 3298, within: 3 },
    got: () => clearAllowable({ mean: 9400, variation: 0.16, divisor: 2.1 }),
  },
]

judgePublishedCases(
  {
    emc: [1, 2, 3, 4, 5, 6, 7, 9, 10, 12, 13, 14],
    dimchange: [2, 3, 5, 6, 8, 14, 16],
    shrinkage: [1, 2, 4, 8, 11],
    woodprop: [
      ...[1, 3, 5, 7, 8, 9, 10, 11, 13, 15, 17, 18, 19, 20, 21, 22, 25, 26, 27, 30, 31, 33, 36, 37, 39],
      ...[40, 42, 43, 47, 49, 50, 51, 52, 54, 56, 57, 59, 60, 61, 62, 63, 64, 65, 66, 68, 70, 71],
    ],
    moistadj: [1, 2, 3, 4, 5, 6],
    hankinson: [2],
    allowable: [1, 2],
  },
  cases,
)
