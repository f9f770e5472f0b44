// `./dev serve`: serves the built page and prints its address.
// usage: node serve.mjs FOLDER [PORT]

import { serve } from './server.mjs';

const [folder = 'dist', wanted = '8080'] = process.argv.slice(2);
const TRIES = 20;

for (let port = Number(wanted), last = port + TRIES; port <= last; port += 1) {
  try {
    const { address } = await serve({ folder, port });
    console.log(`\nSkewline is at ${address}\nStop it with Ctrl+C.`);
    break;
  } catch (error) {
    if (error.code !== 'EADDRINUSE' || port === last) throw error;
    console.log(`Port ${port} is in use; trying ${port + 1}.`);
  }
}
