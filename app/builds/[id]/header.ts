import { cache } from 'react'
import { header } from '#lib/data/builds'
import { load } from '../../load'

/** What stands over every page of a build. Once a request. */
export const buildHeader = cache((buildId: string) => load(header, { buildId }))
