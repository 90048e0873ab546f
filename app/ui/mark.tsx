/** Two boards let into one another, as a drawing shows them. */
export function Mark() {
  return (
    <svg viewBox="0 0 28 28" className="size-7 shrink-0" aria-hidden="true">
      <path d="M3 9h22v6H3z" fill="var(--wood)" stroke="var(--ink)" strokeWidth="1.6" />
      <path d="M10 3l4.5 0 3.5 22-4.5 0z" fill="var(--sheet)" stroke="var(--ink)" strokeWidth="1.6" />
      <path d="M11 9h4.6l0.9 6h-4.6z" fill="var(--accent)" />
    </svg>
  )
}
