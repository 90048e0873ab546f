/**
 * A still picture of a model as PNG: on the paper's colour, with a title and what it is measured by. Needs WebGL.
 *
 *   stillOf(model, { title, widthPx, heightPx, from, theme, coatOf, person }): Promise<Blob>
 *
 * loads the solid kernel by itself; import it when it is wanted: `await import('#app/ui/model-view/still')`.
 * Tests: e2e/model-view.spec.ts
 */
import { type Camera, NeutralToneMapping, PCFShadowMap, Scene, WebGLRenderer } from 'three'
import type { Model } from '#lib/core/design/model'
import { cameraFor, extentOf, type ViewFrom } from './camera-fit'
import { type CoatOf, MaterialStore, partsScene } from './parts-scene'
import {
  aimLights,
  disposeOf,
  drawSoftShadow,
  layFloor,
  makeLights,
  type Person,
  personFigure,
  placeBoxes,
  shadowFloor,
  softPatch,
} from './surroundings'
import { LIGHT, type ViewTheme } from './theme'

export interface Picture {
  readonly title?: string
  /** Under the title, smaller. */
  readonly caption?: string
  readonly widthPx?: number
  readonly heightPx?: number
}

export interface StillOptions extends Picture {
  readonly from?: ViewFrom
  /** Absent: light, whatever the page is: pictures are looked at by others. */
  readonly theme?: ViewTheme
  readonly coatOf?: CoatOf
  readonly person?: Person
}

export const STILL_PX = { width: 1600, height: 1200 } as const

/** Settings that every picture of a model is drawn with. */
export function setUpRenderer(renderer: WebGLRenderer): void {
  renderer.toneMapping = NeutralToneMapping
  renderer.toneMappingExposure = 1
  // Asking a program for its faults makes the page wait for it.
  renderer.debug.checkShaderErrors = process.env.NODE_ENV !== 'production'
  renderer.shadowMap.enabled = true
  renderer.shadowMap.type = PCFShadowMap
}

function write(paint: CanvasRenderingContext2D, { title, caption }: Picture, theme: ViewTheme): void {
  const unit = paint.canvas.width / 1600
  const left = 48 * unit
  const font = (px: number, weight: number): string =>
    `${weight} ${px * unit}px "IBM Plex Sans Variable", system-ui, sans-serif`
  paint.textBaseline = 'alphabetic'
  paint.fillStyle = theme.edge
  const room = paint.canvas.width - 2 * left
  if (title !== undefined) {
    paint.font = font(44, 600)
    paint.fillText(title, left, 80 * unit, room)
  }
  if (caption === undefined) return
  paint.globalAlpha = 0.72
  paint.font = font(28, 400)
  paint.fillText(caption, left, 122 * unit, room)
}

const asPng = (canvas: HTMLCanvasElement): Promise<Blob> =>
  new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/png')
  })

/** @param camera its shape is that of the picture */
export async function stillOfScene(
  scene: Scene,
  camera: Camera,
  theme: ViewTheme,
  picture: Picture = {},
): Promise<Blob> {
  const { widthPx = STILL_PX.width, heightPx = STILL_PX.height } = picture
  const renderer = new WebGLRenderer({ antialias: true, alpha: true, preserveDrawingBuffer: true })
  try {
    setUpRenderer(renderer)
    renderer.setPixelRatio(1)
    renderer.setSize(widthPx, heightPx, false)
    renderer.render(scene, camera)
    const sheet = document.createElement('canvas')
    sheet.width = widthPx
    sheet.height = heightPx
    const paint = sheet.getContext('2d')
    if (paint === null) throw new Error('no picture')
    paint.fillStyle = theme.ground
    paint.fillRect(0, 0, widthPx, heightPx)
    paint.drawImage(renderer.domElement, 0, 0)
    write(paint, picture, theme)
    return await asPng(sheet)
  } finally {
    renderer.dispose()
    renderer.forceContextLoss()
  }
}

/** @throws Error if this browser has no WebGL */
export async function stillOf(model: Model, options: StillOptions = {}): Promise<Blob> {
  const { loadSolidKernel } = await import('#lib/engine/solid-kernel-page')
  const kernel = await loadSolidKernel()
  const { theme = LIGHT, from = 'corner', widthPx = STILL_PX.width, heightPx = STILL_PX.height } = options
  const own = extentOf(model)
  const figure = options.person && personFigure(model, options.person, own, theme)
  const extent = extentOf(model, { beside: figure ? [figure.extent] : [] })
  const store = new MaterialStore()
  const parts = partsScene(kernel, model, { coatOf: options.coatOf, store })
  const light = makeLights()
  aimLights(light, own)
  const soft = softPatch()
  drawSoftShadow(soft, model, own, theme.isDark)
  const floor = shadowFloor(theme.isDark)
  layFloor(floor, own)
  const scene = new Scene()
  // The store serves both: it is swept by the parts, before the place takes from it.
  scene.add(light.group, parts.group, placeBoxes(model, theme, store), soft)
  if (model.hangs === undefined) scene.add(floor)
  if (figure) scene.add(figure.object)
  try {
    return await stillOfScene(scene, cameraFor(extent, from, widthPx / heightPx), theme, options)
  } finally {
    parts.dispose()
    disposeOf(scene)
    light.lamp.dispose()
    store.dispose()
  }
}
