// What one place asks of another: the point that Read should stand before.
class Bus {
    wanted = $state<string | null>(null);
}
export const bus = new Bus();
