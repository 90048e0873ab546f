import { buttonClass } from '../../../ui/button'
import { Row, Rows, Section } from '../../../ui/sheet'
import { type Asked, queryOf } from './asked'
import { FILES } from './file-kinds'

/** Files to take away, each with what it is good for. */
export function Files({ buildId, asked }: { readonly buildId: string; readonly asked: Asked }) {
  return (
    <div className="print:hidden">
      <Section title="Files" note="On the paper and in the units chosen above.">
        <Rows label="Files">
          {FILES.map(({ file, label, format, use }) => (
            <Row
              key={file}
              aside={
                <a
                  className={buttonClass('plain')}
                  href={`/builds/${buildId}/drawings/${file}?${queryOf(asked)}`}
                  download
                  aria-label={`Download ${label}, ${format}`}
                >
                  {format}
                </a>
              }
            >
              <p className="font-medium">{label}</p>
              <p className="max-w-[62ch] text-ink-soft">{use}</p>
            </Row>
          ))}
        </Rows>
      </Section>
    </div>
  )
}
