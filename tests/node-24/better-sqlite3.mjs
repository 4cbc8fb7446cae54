// Loaded before anything else under Node 24, also by workers and commands: `better-sqlite3` then means the one that lies here.
import module, { createRequire } from 'node:module'
import { pathToFileURL } from 'node:url'

// A process of another Node takes its own.
if (module.registerHooks) {
  const own = pathToFileURL(createRequire(import.meta.url).resolve('better-sqlite3')).href
  // Vitest asks by the file that it has found, others by the name.
  const isOther = (url) => url.endsWith('/node_modules/better-sqlite3/lib/index.js') && url !== own
  module.registerHooks({
    resolve: (specifier, context, next) => {
      const found = next(specifier, context)
      return isOther(found.url) ? { ...found, url: own } : found
    },
  })
}
