'use client'
import type { ComponentProps } from 'react'
import { SelectField } from './field'

interface ZoneFieldProps extends Omit<ComponentProps<typeof SelectField>, 'options' | 'label' | 'name'> {
  /** IANA names, as the server knows them. */
  readonly zones: readonly string[]
}

const options = (zones: readonly string[]) =>
  zones.map((value) => {
    const [group, ...place] = value.split('/')
    return {
      value,
      group: place.length > 0 ? group : 'Other',
      label: (place.join(', ') || value).replaceAll('_', ' '),
    }
  })

export const ZoneField = ({ zones, ...rest }: ZoneFieldProps) => (
  <SelectField label="Time zone" name="timeZone" options={options(zones)} {...rest} />
)
