import { ButtonLink } from '../../ui/button'
import { Empty } from '../../ui/sheet'

/** Instead of what needs the design: it was taken out of the app since. */
export function GoneDesign({ buildId }: { readonly buildId: string }) {
  return (
    <Empty
      title="This design is not in the shop any more"
      action={<ButtonLink href={`/builds/${buildId}`}>Back to the build</ButtonLink>}
    >
      The build was begun with a design that this version of Fellowbench does not have.
    </Empty>
  )
}
