import type { BuildToJoin } from '#lib/data/plans-together'
import { CheckField, ChoiceField, SelectField } from '../../../../ui/field'
import { Form, Submit } from '../../../../ui/form'
import { TIMES } from '../ask-form'
import { askTogether } from './actions'

const PRIORITY_OPTIONS = [
  { value: 'first', label: 'before others' },
  { value: 'even', label: 'like others' },
  { value: 'last', label: 'after others' },
] as const

interface Props {
  readonly buildId: string
  readonly buildName: string
  readonly builds: readonly BuildToJoin[]
  readonly chosen: ReadonlySet<string>
  readonly isFirst: boolean
}

/** Which builds, which of them comes first, and how long to look. */
export function TogetherForm({ buildId, buildName, builds, chosen, isFirst }: Props) {
  return (
    <Form action={askTogether} label="Plan together" className="grid gap-5">
      <input type="hidden" name="buildId" value={buildId} />
      <SelectField
        label={`Parts of «${buildName}» are made`}
        name="priority"
        options={PRIORITY_OPTIONS}
        defaultValue="even"
        className="max-w-xs"
        help="Where not all can be made."
      />
      <fieldset className="grid gap-1">
        <legend className="font-medium">Together with</legend>
        {builds.map((build, i) => (
          <div
            key={build.id}
            className="flex flex-wrap items-center justify-between gap-x-6 border-t border-hairline py-1"
          >
            <CheckField
              name="others"
              value={build.id}
              defaultChecked={chosen.has(build.id)}
              error={i === 0 ? undefined : ''}
              label={`${build.name}, ${build.isMine ? 'your own' : build.makerName}`}
            />
            <SelectField
              label={`Parts of ${build.name} are made`}
              labelHidden
              name={`priority.${build.id}`}
              options={PRIORITY_OPTIONS}
              defaultValue="even"
            />
          </div>
        ))}
      </fieldset>
      <ChoiceField
        label="Look for at most"
        name="seconds"
        options={TIMES}
        defaultValue="20"
        help="A third of it goes into planning each build by itself, to compare."
      />
      <div>
        <Submit look={isFirst ? 'primary' : 'plain'}>Plan together</Submit>
      </div>
    </Form>
  )
}
