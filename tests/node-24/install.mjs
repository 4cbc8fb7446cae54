// Installs Node 24 into this folder, as its own lock says, unless it lies there already. It has a package.json of its own because
// a package named `node` among the house's would answer every `node` of every command.
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

const here = import.meta.dirname
const modules = join(here, 'node_modules')
export const node24 = join(modules, 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node')

/** False when it is not here and the registry cannot be reached. */
export function readyNode24() {
  if (isInstalled()) return true
  const { status } = spawnSync('npm', ['ci'], {
    cwd: here,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  })
  return status === 0 && isInstalled()
}

function isInstalled() {
  const { dependencies } = JSON.parse(readFileSync(join(here, 'package.json'), 'utf8'))
  return (
    existsSync(node24) && Object.entries(dependencies).every(([name, version]) => installed(name) === version)
  )
}

function installed(name) {
  const file = join(modules, name, 'package.json')
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).version : null
}
