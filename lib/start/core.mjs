// npm run -s core -- VERB < in.json > out.json: the computing core without the app (docs/formats.md).
import { spawnSync } from 'node:child_process'
import { bundle } from './bundle.mjs'

const [door] = await bundle(['lib/engine/core-door.ts'])
const done = spawnSync(process.execPath, [door, ...process.argv.slice(2)], { stdio: 'inherit' })
process.exit(done.status ?? 1)
