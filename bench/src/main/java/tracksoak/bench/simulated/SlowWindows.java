package tracksoak.bench.simulated;

/** Lets a drive work at a part of its speed inside stretches of time. */
final class SlowWindows implements Effect {

    private final Windows windows;
    private final int permille;
    private long pluggedAtNs = -1;

    SlowWindows(Windows windows, int permille) {
        this.windows = windows;
        this.permille = permille;
    }

    @Override
    public void shape(Call call) {
        if (pluggedAtNs < 0) {
            pluggedAtNs = call.startNs() - call.idleNs();
        }
        call.take(windows.stretched(call.startNs() - pluggedAtNs, call.serviceNs(), permille));
    }
}
