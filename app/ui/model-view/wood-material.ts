/**
 * Wood for a part: a solid texture in the part's own frame, grain along x, growth rings about an axis that lies
 * beside the part, so faces show cathedral or straight grain and ends show rings. Positions in mm.
 */
import { Color, MeshStandardMaterial } from 'three'

export interface WoodTone {
  readonly light: string
  readonly dark: string
  /** Mean width of a growth ring. */
  readonly ringMm: number
}

const TONES: Readonly<Record<string, WoodTone>> = {
  redOak: { light: '#d9b183', dark: '#a87848', ringMm: 5 },
  whiteOak: { light: '#d3b586', dark: '#9c7a4b', ringMm: 5 },
  hardMaple: { light: '#ecd9b4', dark: '#cbab7b', ringMm: 4 },
  softMaple: { light: '#e6cfa8', dark: '#c29f72', ringMm: 4 },
  yellowBirch: { light: '#e3c592', dark: '#bb915a', ringMm: 4 },
  blackCherry: { light: '#c98d60', dark: '#94562f', ringMm: 5 },
  blackWalnut: { light: '#8f6f53', dark: '#63452e', ringMm: 5 },
  whiteAsh: { light: '#e6d0a4', dark: '#b48f5c', ringMm: 6 },
  beech: { light: '#e0b98a', dark: '#b98a5a', ringMm: 4 },
  yellowPoplar: { light: '#d8d0a0', dark: '#a39a62', ringMm: 6 },
  redAlder: { light: '#dcae80', dark: '#b27f52', ringMm: 6 },
  douglasFir: { light: '#dfb078', dark: '#ad6a35', ringMm: 7 },
  westernRedcedar: { light: '#c98a63', dark: '#8f5132', ringMm: 6 },
  mahogany: { light: '#b06a45', dark: '#7d3f26', ringMm: 5 },
  teak: { light: '#b98a52', dark: '#825c30', ringMm: 5 },
  softwood: { light: '#e8c993', dark: '#c08c4e', ringMm: 8 },
  hardwood: { light: '#d9b685', dark: '#a77f4c', ringMm: 5 },
}
const SALVAGE: WoodTone = { light: '#dcb987', dark: '#a97f4d', ringMm: 6 }
const PINES = new Set(['loblollyPine', 'longleafPine', 'easternWhitePine', 'ponderosaPine', 'sitkaSpruce'])

/** Colours of a species as it looks under clear finish; salvage of any kind has one of its own. */
export function woodTone(species: string | undefined): WoodTone {
  if (species === undefined) return SALVAGE
  return TONES[species] ?? (PINES.has(species) ? TONES.softwood : SALVAGE)
}

const NOISE = /* glsl */ `
  varying vec3 vWood;
  uniform vec3 uDark;
  uniform float uSeed;
  uniform float uRing;
  float hash(vec3 p) {
    p = fract(p * 0.3183099 + 0.1);
    p *= 17.0;
    return fract(p.x * p.y * p.z * (p.x + p.y + p.z));
  }
  float noise(vec3 x) {
    vec3 i = floor(x);
    vec3 f = fract(x);
    f = f * f * (3.0 - 2.0 * f);
    return mix(
      mix(mix(hash(i), hash(i + vec3(1, 0, 0)), f.x), mix(hash(i + vec3(0, 1, 0)), hash(i + vec3(1, 1, 0)), f.x), f.y),
      mix(mix(hash(i + vec3(0, 0, 1)), hash(i + vec3(1, 0, 1)), f.x), mix(hash(i + vec3(0, 1, 1)), hash(i + vec3(1, 1, 1)), f.x), f.y),
      f.z);
  }
  float woodDarkness(vec3 p) {
    vec2 pith = vec2(20.0 + 50.0 * fract(uSeed * 0.731), -45.0 - 60.0 * fract(uSeed * 0.417));
    vec3 q = p + vec3(uSeed * 371.0, 0.0, 0.0);
    float bend = 16.0 * noise(vec3(q.x * 0.004, p.yz * 0.008)) + 3.0 * noise(vec3(q.x * 0.016, p.yz * 0.05));
    float ring = fract((length(p.yz - pith) + bend) / uRing);
    float late = smoothstep(0.35, 0.95, ring) * (1.0 - smoothstep(0.95, 1.0, ring));
    float fibre = noise(vec3(q.x * 0.05, p.yz * 1.3));
    float broad = noise(vec3(q.x * 0.002, p.yz * 0.02));
    return clamp(0.55 * late + 0.3 * fibre * fibre + 0.25 * broad, 0.0, 1.0);
  }
`

/**
 * Material of one part.
 * @param seed any number: where in the tree the part was cut
 */
export function woodMaterial(tone: WoodTone, seed: number): MeshStandardMaterial {
  const material = new MeshStandardMaterial({ color: tone.light, roughness: 0.72, metalness: 0 })
  material.onBeforeCompile = (shader) => {
    shader.uniforms.uDark = { value: new Color(tone.dark) }
    shader.uniforms.uSeed = { value: seed }
    shader.uniforms.uRing = { value: tone.ringMm }
    shader.vertexShader = shader.vertexShader
      .replace('#include <common>', '#include <common>\nvarying vec3 vWood;')
      .replace('#include <begin_vertex>', '#include <begin_vertex>\nvWood = position;')
    shader.fragmentShader = shader.fragmentShader
      .replace('#include <common>', `#include <common>\n${NOISE}`)
      .replace(
        '#include <color_fragment>',
        '#include <color_fragment>\ndiffuseColor.rgb = mix(diffuseColor.rgb, uDark, woodDarkness(vWood));',
      )
  }
  material.customProgramCacheKey = () => 'wood'
  return material
}

/** Under paint no grain shows. */
export const paintMaterial = (colour: string): MeshStandardMaterial =>
  new MeshStandardMaterial({ color: colour, roughness: 0.55, metalness: 0 })
