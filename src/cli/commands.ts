// The list of commands. Each is loaded only when called, so that `--help` and small commands start at once.
import type { Command } from './command.ts'

export const commands: Record<string, () => Promise<Command>> = {
  serve: async () => (await import('./serve.ts')).serveCommand,
  now: async () => (await import('./now.ts')).nowCommand,
  project: async () => (await import('./project.ts')).projectCommand,
  solve: async () => (await import('./solve.ts')).solveCommand,
  'plan-schema': async () => (await import('./plan-schema.ts')).planSchemaCommand,
  estimate: async () => (await import('#src/cli/estimate/estimate.ts')).estimateCommand,
  sources: async () => (await import('./sources.ts')).sourcesCommand,
  import: async () => (await import('./import.ts')).importCommand,
  verify: async () => (await import('./verify.ts')).verify,
  backup: async () => (await import('./backup.ts')).backup,
  restore: async () => (await import('./restore.ts')).restore,
}
