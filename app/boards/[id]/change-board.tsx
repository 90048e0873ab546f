import { typedLength } from '#lib/format/length'
import { finishChoice } from '#lib/shop/boards'
import { CheckField, LengthField, SelectField, TextArea, TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { boardChanged } from '../actions'
import { FINISH_OPTIONS, SPECIES_OPTIONS, TERMS_OPTIONS } from '../choices'
import type { BoardView } from './board-view'

interface ChangeProps {
  readonly board: BoardView
  readonly units: 'mm' | 'in'
}

/** For the owner and an admin. A size that is not touched keeps its exact value, whatever units it is shown in. */
export function ChangeBoard({ board, units }: ChangeProps) {
  const shown = {
    length: board.lengthUm,
    width: board.widthUm,
    thickness: board.thicknessUm,
    cup: board.warp.cupUm,
    bow: board.warp.bowUm,
    crook: board.warp.crookUm,
    twist: board.warp.twistUm,
  }
  const length = (label: string, name: keyof typeof shown, help?: string) => (
    <LengthField
      label={label}
      name={name}
      units={units}
      help={help}
      defaultValue={typedLength(shown[name], units)}
    />
  )
  return (
    <details className="mt-5 border-t border-hairline pt-2">
      <summary className="min-h-11 py-2 font-medium">Change measures, finish, terms or place</summary>
      <Form action={boardChanged} done="Changed." label="Change the board" className="mt-2 grid gap-4">
        <input type="hidden" name="boardId" value={board.id} />
        <input type="hidden" name="version" value={board.version} />
        <input type="hidden" name="units" value={units} />
        <input type="hidden" name="shown" value={JSON.stringify(shown)} />
        <div className="grid grid-cols-2 items-start gap-3 sm:grid-cols-4">
          {length('Length', 'length')}
          {length('Width', 'width')}
          {length('Thickness', 'thickness')}
          <SelectField
            label="Species"
            name="species"
            options={SPECIES_OPTIONS}
            defaultValue={board.species}
          />
          {length('Cup', 'cup', 'Over its width.')}
          {length('Bow', 'bow', 'Over its length, flat side.')}
          {length('Crook', 'crook', 'Over its length, edge.')}
          {length('Twist', 'twist', 'Lift of the fourth corner.')}
        </div>
        <div className="grid items-start gap-3 sm:grid-cols-3">
          <SelectField
            label="Old finish"
            name="finish"
            options={FINISH_OPTIONS}
            defaultValue={finishChoice(board)}
          />
          <SelectField label="Terms" name="terms" options={TERMS_OPTIONS} defaultValue={board.terms} />
          <TextField label="Where it lies" name="place" maxLength={80} defaultValue={board.place} />
        </div>
        <CheckField label="Preservative-treated" name="treated" defaultChecked={board.treated} />
        <TextArea label="Notes" name="notes" rows={2} maxLength={1000} defaultValue={board.notes} />
        <div>
          <Submit>Save the board</Submit>
        </div>
      </Form>
    </details>
  )
}
