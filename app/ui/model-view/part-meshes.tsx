'use client'
/** The parts of a model in 3-D, the screws in them and the place around them. mm; z is up. */
import type { ThreeEvent } from '@react-three/fiber'
import { useEffect, useMemo } from 'react'
import {
  BoxGeometry,
  BufferAttribute,
  BufferGeometry,
  EdgesGeometry,
  Matrix4,
  Quaternion,
  Vector3,
} from 'three'
import { featureEdges } from '#lib/core/design/drawing/hidden-lines'
import type { Model, Part, PlaceBox, ScrewAxis } from '#lib/core/design/model'
import { meshesOf } from '#lib/core/design/part-solid'
import type { SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import type { ViewTheme } from './theme'
import { paintMaterial, woodMaterial, woodTone } from './wood-material'

const SEEDS = 7
const PAINT = '#7f9188'
/** Head of a flat-head screw over its shank. */
const HEAD_SHANKS = 2

/** Corners of their own for every triangle, so that edges stay sharp. */
function surfaceOf({ positions, triangles }: SolidMesh): BufferGeometry {
  const indexed = new BufferGeometry()
  indexed.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3))
  indexed.setIndex(new BufferAttribute(triangles, 1))
  const flat = indexed.toNonIndexed()
  flat.computeVertexNormals()
  indexed.dispose()
  return flat
}

function edgesOf(mesh: SolidMesh): BufferGeometry {
  const geometry = new BufferGeometry()
  const corners = featureEdges(mesh).flatMap((corner) => [0, 1, 2].map((k) => mesh.positions[3 * corner + k]))
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(corners), 3))
  return geometry
}

const matrixOf = ({ frame }: Part): Matrix4 =>
  new Matrix4()
    .makeBasis(new Vector3(...frame.x), new Vector3(...frame.y), new Vector3(...frame.z))
    .setPosition(...frame.origin)

/** The same part keeps its grain when the model changes. */
function seedOf(id: string): number {
  let sum = 0
  for (let i = 0; i < id.length; i++) sum = (sum * 31 + id.charCodeAt(i)) % 9973
  return (sum % SEEDS) + 0.37
}

function disposeAll(list: Iterable<{ dispose(): void }>): void {
  for (const item of list) item.dispose()
}

function useShapes(kernel: SolidKernel, model: Model) {
  const shapes = useMemo(() => {
    const meshes = meshesOf(kernel, model.parts)
    const surfaces = new Map<SolidMesh, BufferGeometry>()
    const edges = new Map<SolidMesh, BufferGeometry>()
    for (const { mesh } of meshes) {
      if (surfaces.has(mesh)) continue
      surfaces.set(mesh, surfaceOf(mesh))
      edges.set(mesh, edgesOf(mesh))
    }
    const parts = meshes.map(({ part, mesh }) => ({
      part,
      surface: surfaces.get(mesh)!,
      edges: edges.get(mesh)!,
      matrix: matrixOf(part),
    }))
    return { parts, all: [...surfaces.values(), ...edges.values()] }
  }, [kernel, model])
  useEffect(() => () => disposeAll(shapes.all), [shapes])
  return shapes.parts
}

const isPainted = (part: Part): boolean => Object.values(part.faces).includes('paint')

function useMaterial(part: Part, highlight: string | null) {
  const { id, species } = part
  const painted = isPainted(part)
  const material = useMemo(() => {
    const made = painted ? paintMaterial(PAINT) : woodMaterial(woodTone(species), seedOf(id))
    if (highlight !== null) {
      made.emissive.set(highlight)
      made.emissiveIntensity = 0.45
    }
    return made
  }, [id, species, painted, highlight])
  useEffect(() => () => material.dispose(), [material])
  return material
}

interface PartMeshProps {
  readonly shape: ReturnType<typeof useShapes>[number]
  readonly theme: ViewTheme
  readonly isHighlighted: boolean
  readonly onPick?: (partId: string) => void
}

function PartMesh({ shape, theme, isHighlighted, onPick }: PartMeshProps) {
  const material = useMaterial(shape.part, isHighlighted ? theme.accent : null)
  const pick = (event: ThreeEvent<MouseEvent>): void => {
    // A drag that ends on a part turned the view; it picked nothing.
    if (event.delta > 5) return
    event.stopPropagation()
    onPick?.(shape.part.id)
  }
  return (
    <group matrix={shape.matrix} matrixAutoUpdate={false}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: a solid in the scene, not an element of the page */}
      <mesh geometry={shape.surface} material={material} castShadow receiveShadow onClick={pick} />
      <lineSegments geometry={shape.edges}>
        <lineBasicMaterial
          color={isHighlighted ? theme.accent : theme.edge}
          transparent
          opacity={isHighlighted ? 0.9 : 0.38}
        />
      </lineSegments>
    </group>
  )
}

function ScrewHeads({ screws }: { screws: readonly ScrewAxis[] }) {
  const place = (mesh: import('three').InstancedMesh | null): void => {
    if (mesh === null) return
    screws.forEach((screw, i) => {
      const head = new Vector3(...screw.head)
      const out = head
        .clone()
        .sub(new Vector3(...screw.tip))
        .normalize()
      const turn = new Quaternion().setFromUnitVectors(new Vector3(0, 0, 1), out)
      const radius = (HEAD_SHANKS * screw.shankMm) / 2
      mesh.setMatrixAt(
        i,
        new Matrix4().compose(head.addScaledVector(out, 0.25), turn, new Vector3(radius, radius, 1)),
      )
    })
    mesh.instanceMatrix.needsUpdate = true
  }
  return (
    <instancedMesh
      key={screws.length}
      ref={place}
      args={[undefined, undefined, screws.length]}
      frustumCulled={false}
    >
      <circleGeometry args={[1, 16]} />
      <meshStandardMaterial color="#75726b" roughness={0.35} metalness={0.7} />
    </instancedMesh>
  )
}

function PlaceMesh({ box, theme }: { box: PlaceBox; theme: ViewTheme }) {
  const size = useMemo(() => box.max.map((value, i) => value - box.min[i]) as [number, number, number], [box])
  const middle = box.max.map((value, i) => (value + box.min[i]) / 2) as [number, number, number]
  const edges = useMemo(() => {
    const solid = new BoxGeometry(...size)
    const found = new EdgesGeometry(solid)
    solid.dispose()
    return found
  }, [size])
  useEffect(() => () => edges.dispose(), [edges])
  return (
    <group position={middle}>
      <mesh renderOrder={2}>
        <boxGeometry args={size} />
        <meshStandardMaterial
          color={theme.place}
          transparent
          opacity={box.id === 'counter' ? 0.3 : 0.1}
          depthWrite={false}
        />
      </mesh>
      <lineSegments geometry={edges}>
        <lineBasicMaterial color={theme.edge} transparent opacity={0.35} />
      </lineSegments>
    </group>
  )
}

interface ModelMeshesProps {
  readonly kernel: SolidKernel
  readonly model: Model
  readonly theme: ViewTheme
  readonly highlightedPartId?: string
  readonly onPartPick?: (partId: string) => void
}

export function ModelMeshes({ kernel, model, theme, highlightedPartId, onPartPick }: ModelMeshesProps) {
  const shapes = useShapes(kernel, model)
  const screws = useMemo(() => model.joints.flatMap((joint) => joint.screws), [model])
  return (
    <>
      {shapes.map((shape) => (
        <PartMesh
          key={shape.part.id}
          shape={shape}
          theme={theme}
          isHighlighted={shape.part.id === highlightedPartId}
          onPick={onPartPick}
        />
      ))}
      {screws.length > 0 ? <ScrewHeads screws={screws} /> : null}
      {model.place.map((box) => (
        <PlaceMesh key={box.id} box={box} theme={theme} />
      ))}
    </>
  )
}
