import { render } from 'preact';
import { App } from './app.tsx';
import { startChecker } from './check-client.ts';

const root = document.getElementById('app')!;
root.replaceChildren();
render(<App checker={startChecker()} opened={location.hash.slice(1)} />, root);
