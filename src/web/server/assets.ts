// The page's style, script, htmx and mark: read once at start, sent under addresses that change with their content.
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { MiddlewareHandler } from 'hono'

export interface AssetAddresses {
  css: string
  script: string
  htmx: string
  mark: string
}

const styleFiles = [
  'tokens',
  'page',
  'parts',
  'sides',
  'sorting',
  'month',
  'charts',
  'runway',
  'farm',
  'notebook',
  'year-pack',
  'narrow',
  'print',
] as const
/** Put together in this order. */
const scriptFiles = ['dooryard', 'desk', 'drop'] as const
const folder = join(import.meta.dirname, '../../../views/assets')

export function loadAssets(): { addresses: AssetAddresses; serve: MiddlewareHandler } {
  const htmxFolder = dirname(createRequire(import.meta.url).resolve('htmx.org/dist/htmx.min.js'))
  const together = (names: readonly string[], ending: string) =>
    names.map((name) => read(folder, `${name}.${ending}`)).join('\n')
  const files = {
    css: asset('dooryard.css', 'text/css; charset=utf-8', together(styleFiles, 'css')),
    script: asset('dooryard.js', 'text/javascript; charset=utf-8', together(scriptFiles, 'js')),
    htmx: asset('htmx.js', 'text/javascript; charset=utf-8', read(htmxFolder, 'htmx.min.js')),
    mark: asset('mark.svg', 'image/svg+xml', read(folder, 'mark.svg')),
  }
  const byPath = new Map(Object.values(files).map((file) => [`/assets/${file.name}`, file]))
  return {
    addresses: {
      css: files.css.address,
      script: files.script.address,
      htmx: files.htmx.address,
      mark: files.mark.address,
    },
    serve: async (c, next) => {
      const file = byPath.get(c.req.path)
      if (!file) return next()
      const isCurrent = c.req.query('v') === file.version
      return c.body(file.body, 200, {
        'Content-Type': file.type,
        'Cache-Control': isCurrent ? 'public, max-age=31536000, immutable' : 'no-cache',
      })
    },
  }
}

const read = (from: string, name: string): string => readFileSync(join(from, name), 'utf8')

const asset = (name: string, type: string, body: string) => {
  const version = createHash('sha256').update(body).digest('base64url').slice(0, 12)
  return { name, type, body, version, address: `/assets/${name}?v=${version}` }
}
