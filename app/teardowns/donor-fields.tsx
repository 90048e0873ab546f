import { TextArea, TextField } from '../ui/field'

interface DonorProps {
  readonly name?: string
  readonly foundAt?: string
  readonly notes?: string
}

/** What the piece was, for a new teardown and for changing one. */
export function DonorFields({ name, foundAt, notes }: DonorProps) {
  return (
    <>
      <TextField
        label="What it was"
        name="name"
        defaultValue={name}
        maxLength={120}
        help="As you would say it: «Pine bed, broken slats»."
      />
      <TextField label="Where you found it" name="foundAt" defaultValue={foundAt} maxLength={120} />
      <TextArea
        label="Notes"
        name="notes"
        defaultValue={notes}
        maxLength={2000}
        help="Screws kept, smells, what is still in it: whatever the next one should know."
      />
    </>
  )
}
