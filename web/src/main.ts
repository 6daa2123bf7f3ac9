import { mount } from 'svelte';
import App from './App.svelte';
import { app } from './app/app.svelte';
import { offline } from './app/offline.svelte';
import './design/tokens.css';
import './design/base.css';

mount(App, { target: document.getElementById('app')! });
void app.start().then(() => offline.start());
