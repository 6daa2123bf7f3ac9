// Where the person is, as the address has it: back and forward work, and a reload comes back to the same place.

export const PLACES = ['prepare', 'setup', 'read', 'check', 'hand-over'] as const;
export type Place = (typeof PLACES)[number];
export const PLACE_WORDS: Record<Place, string> = {
    prepare: 'Prepare', setup: 'Set up', read: 'Read', check: 'Check', 'hand-over': 'Hand over',
};

export const SCREENS = ['doors', 'fall', 'staff', 'right', 'practice', 'device'] as const;
export type Screen = (typeof SCREENS)[number];

export type Route = { screen: Screen } | { screen: 'job'; book: string; place: Place };

export function parseRoute(hash: string): Route {
    const [first, second, third] = hash.replace(/^#\/?/, '').split('/');
    if (first === 'job' && second) {
        const place = PLACES.find((each) => each === third) ?? 'read';
        return { screen: 'job', book: decodeURIComponent(second), place };
    }
    return { screen: SCREENS.find((each) => each === first) ?? 'doors' };
}

export function addressOf(route: Route): string {
    if (route.screen === 'doors') return '#/';
    return route.screen === 'job' ? `#/job/${encodeURIComponent(route.book)}/${route.place}` : `#/${route.screen}`;
}

class Router {
    current = $state<Route>(parseRoute(typeof location === 'undefined' ? '' : location.hash));

    constructor() {
        if (typeof addEventListener === 'undefined') return;
        addEventListener('hashchange', () => (this.current = parseRoute(location.hash)));
    }

    go(route: Route) {
        const address = addressOf(route);
        if (location.hash === address) this.current = route;
        else location.hash = address;
    }
}

export const router = new Router();
