/** Starts the app: styles, store, and the root component. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import './app/theme.css';
import './app/controls.css';
import './app/fields.css';
import './app/timber.css';
import './app/layout.css';
import './app/furniture.css';
import './app/screens.css';
import './app/show/show.css';
import './app/show/offer.css';
import './app/show/client.css';
import { App } from './app/App.tsx';
import { AtSawDoor } from './app/AtSawDoor.tsx';
import { startApp } from './app/start.ts';

const root = document.getElementById('app');
if (!root) throw new Error('index.html has no element #app');

const store = await startApp();
createRoot(root).render(
  <StrictMode>
    <AtSawDoor store={store}>
      <App store={store} />
    </AtSawDoor>
  </StrictMode>,
);
