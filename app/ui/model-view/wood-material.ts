/**
 * Wood as a solid: the colour of every point of a part follows from growth rings about a pith that lies beside the
 * part, so faces show flames or straight grain, ends show rings, and a cut through it shows what is inside. Grain along
 * x; mm in the part's own frame. Made on the graphics processor from one small block of seeded noise; no pictures.
 */
import {
  Color,
  Data3DTexture,
  LinearFilter,
  MeshStandardMaterial,
  RedFormat,
  RepeatWrapping,
  UnsignedByteType,
} from 'three'
import { seededRng } from '#lib/core/units/rng'
import type { PoreKind, SpeciesLook } from './species-look'

export type CoatKind = 'bare' | 'paint' | 'stain' | 'oil' | 'varnish' | 'shellac' | 'wax'

/** How a face is finished, as far as it is seen. */
export interface CoatLook {
  readonly kind: CoatKind
  /** Of paint and stain, as CSS writes it. */
  readonly colour?: string
}

const NOISE_SIDE = 32
let noiseBlock: Data3DTexture | undefined

/** Even chance in a block that repeats without seam. */
function noiseTexture(): Data3DTexture {
  if (noiseBlock !== undefined) return noiseBlock
  const rng = seededRng(1)
  const data = Uint8Array.from({ length: NOISE_SIDE ** 3 }, () => rng.below(256))
  const made = new Data3DTexture(data, NOISE_SIDE, NOISE_SIDE, NOISE_SIDE)
  made.format = RedFormat
  made.type = UnsignedByteType
  made.minFilter = made.magFilter = LinearFilter
  made.wrapS = made.wrapT = made.wrapR = RepeatWrapping
  made.unpackAlignment = 1
  made.needsUpdate = true
  noiseBlock = made
  return made
}

const WOOD = /* glsl */ `
  varying vec3 vWood;
  varying vec3 vWoodNormal;
  uniform highp sampler3D uNoise;
  uniform vec3 uDark;
  uniform vec3 uTint;
  uniform vec4 uTree;
  uniform vec4 uLook;
  uniform vec3 uCoat;
  uniform float uHatch;

  float chance(vec3 x) {
    vec3 i = floor(x);
    vec3 f = x - i;
    f = f * f * (3.0 - 2.0 * f);
    return texture(uNoise, (i + f + 0.5) / ${NOISE_SIDE}.0).r;
  }

  // uTree: pith y, pith z, lean of the pith, place along the tree. uLook: ring width, contrast, pores in a band, pores anywhere.
  vec3 woodColour(vec3 p, vec3 n, vec3 light) {
    float along = p.x + uTree.w;
    float wave = chance(vec3(along * 0.0031, uTree.w * 0.1, 3.5)) - 0.5;
    float sway = chance(vec3(along * 0.0047, uTree.w * 0.2, 9.5)) - 0.5;
    vec2 pith = uTree.xy + vec2(26.0 * sway, uTree.z * p.x + 22.0 * wave);
    vec2 d = p.yz - pith;
    float r = length(d) + 1.3 * uLook.x * (chance(vec3(along * 0.006, d * 0.045)) - 0.5)
      + 0.35 * (chance(vec3(along * 0.02, d * 0.4)) - 0.5);
    float years = r / uLook.x;
    years += 1.1 * chance(vec3(years * 0.43, uTree.w, 0.5));
    float spread = fwidth(years);
    float year = fract(years);
    float seen = 1.0 - smoothstep(0.3, 0.9, spread);
    float pixel = length(fwidth(p));
    float endGrain = smoothstep(0.55, 0.8, abs(n.x));

    // Latewood darkens towards the end of its year and stops short; a band of pores begins the next.
    float late = smoothstep(0.3, 0.94, year) * (1.0 - smoothstep(0.95, 1.0, year));
    float band = 1.0 - smoothstep(0.05, 0.38, year);
    float grain = mix(0.3, mix(late, 0.45 * late + 0.3 * band, uLook.z), seen);
    float dark = uLook.y * grain;

    // Fibres and vessels run along the grain: streaks on a face, dots on an end.
    float fine = 1.0 - smoothstep(0.35, 1.4, pixel);
    float fibre = chance(vec3(along * 0.012, p.yz * 0.85)) - 0.5;
    float thread = chance(vec3(along * 0.022, p.yz * 2.7)) - 0.5;
    dark += (0.2 * fibre + 0.22 * fine * thread) * (1.0 - 0.5 * endGrain);
    float vessel = smoothstep(0.68, 0.86, chance(vec3(along * 0.045, p.yz * 1.9 + 7.0)));
    float poreShare = uLook.z * mix(0.3, 1.0, band * seen) + uLook.w;
    dark += 0.5 * fine * vessel * poreShare;

    float broad = chance(vec3(along * 0.0022, p.yz * 0.017)) - 0.5;
    vec3 colour = mix(light, uDark, clamp(dark, 0.0, 1.0)) * (1.0 + 0.16 * broad);
    // Cut fibres drink light: ends are darker and their rings stand out.
    return colour * mix(1.0, 0.74, endGrain);
  }

  // uCoat: how much stain, how much deeper, how much amber.
  vec3 coated(vec3 colour) {
    float grey = dot(colour, vec3(0.3, 0.6, 0.1));
    vec3 stained = uTint * (0.35 + 1.9 * grey);
    colour = mix(colour, stained, uCoat.x);
    colour = pow(colour, vec3(1.0 + uCoat.y));
    colour *= mix(vec3(1.0), vec3(1.0, 0.86, 0.62), uCoat.z);
    float line = abs(fract((vWood.x + vWood.y + vWood.z) / 7.0) - 0.5);
    return mix(colour, colour * 0.42, uHatch * (1.0 - smoothstep(0.04, 0.04 + 1.2 * fwidth(line), line)));
  }
`
interface CoatEffect {
  readonly stain: number
  readonly deeper: number
  readonly amber: number
  readonly roughness: number
}
const EFFECT: Readonly<Record<CoatKind, CoatEffect>> = {
  bare: { stain: 0, deeper: 0, amber: 0, roughness: 0.85 },
  paint: { stain: 0, deeper: 0, amber: 0, roughness: 0.5 },
  stain: { stain: 0.8, deeper: 0, amber: 0, roughness: 0.75 },
  oil: { stain: 0, deeper: 0.06, amber: 0.05, roughness: 0.6 },
  varnish: { stain: 0, deeper: 0.07, amber: 0.12, roughness: 0.32 },
  shellac: { stain: 0, deeper: 0.07, amber: 0.3, roughness: 0.36 },
  wax: { stain: 0, deeper: 0.04, amber: 0.03, roughness: 0.52 },
}
const PORES: Readonly<Record<PoreKind, readonly [inBand: number, anywhere: number]>> = {
  none: [0, 0],
  ring: [1, 0.12],
  diffuse: [0, 0.34],
}

export interface WoodOptions {
  readonly look: SpeciesLook
  /** Where in which tree the part was cut: any whole number. */
  readonly seed: number
  readonly coat: CoatLook
  /** Thin strokes across it, as a drawing marks wood that is cut through. */
  readonly isCut?: boolean
}

/** A pith out of the board for most parts, so that faces show flames; parts differ a little in colour. */
function treeOf(seed: number, ringMm: number) {
  const rng = seededRng(seed)
  const side = rng.next() < 0.5 ? -1 : 1
  const pith = [15 + 60 * rng.next(), side * ringMm * (5 + 9 * rng.next())] as const
  const lean = 0.02 * (rng.next() - 0.5)
  return { uTree: [...pith, lean, 3000 * rng.next()] as const, shade: 0.92 + 0.14 * rng.next() }
}

/** A material of one part for faces with one coat. */
export function woodMaterial({ look, seed, coat, isCut = false }: WoodOptions): MeshStandardMaterial {
  const effect = EFFECT[coat.kind]
  const { uTree, shade } = treeOf(seed, look.ringMm)
  const light = new Color(look.light).multiplyScalar(shade)
  const material = new MeshStandardMaterial({ color: light, roughness: effect.roughness, metalness: 0 })
  const uniforms = {
    uNoise: { value: noiseTexture() },
    uDark: { value: new Color(look.dark).multiplyScalar(shade) },
    uTint: { value: new Color(coat.colour ?? '#ffffff') },
    uTree: { value: uTree },
    uLook: { value: [look.ringMm, look.contrast, ...PORES[look.pores]] },
    uCoat: { value: [effect.stain, effect.deeper, effect.amber] },
    uHatch: { value: isCut ? 1 : 0 },
  }
  material.onBeforeCompile = (shader) => {
    Object.assign(shader.uniforms, uniforms)
    shader.vertexShader = shader.vertexShader
      .replace('#include <common>', '#include <common>\nvarying vec3 vWood;\nvarying vec3 vWoodNormal;')
      .replace('#include <begin_vertex>', '#include <begin_vertex>\nvWood = position;\nvWoodNormal = normal;')
    shader.fragmentShader = shader.fragmentShader
      .replace('#include <common>', `#include <common>\n${WOOD}`)
      .replace(
        '#include <color_fragment>',
        '#include <color_fragment>\ndiffuseColor.rgb = coated(woodColour(vWood, vWoodNormal, diffuseColor.rgb));',
      )
  }
  material.customProgramCacheKey = () => 'wood'
  return withOffset(material)
}

/** Under paint no grain shows. */
export const paintMaterial = (colour: string): MeshStandardMaterial =>
  withOffset(new MeshStandardMaterial({ color: colour, roughness: EFFECT.paint.roughness, metalness: 0 }))

/** Surfaces lie a hair behind their own edge lines. */
function withOffset(material: MeshStandardMaterial): MeshStandardMaterial {
  material.polygonOffset = true
  material.polygonOffsetFactor = 1
  material.polygonOffsetUnits = 1
  return material
}
