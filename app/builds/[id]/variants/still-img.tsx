interface StillImgProps {
  readonly stillId: string
  readonly alt: string
  readonly className: string
}

/** A picture that a member shows. Only who is signed in may fetch it, so no image service stands between. */
export const StillImg = ({ stillId, alt, className }: StillImgProps) => (
  // biome-ignore lint/performance/noImgElement: see above
  <img src={`/api/stills/${stillId}.png`} alt={alt} loading="lazy" className={className} />
)
