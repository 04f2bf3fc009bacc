package tracksoak.bench.command;

import tracksoak.bench.command.console.StopSignal;

/** Ctrl-C, pressed as soon as a command listens for it. Stateless. */
public final class PressedAtOnce implements StopSignal {

    @Override
    public Watch onStop(Runnable cancel) {
        cancel.run();
        return new Watch() {
            @Override
            public boolean stopped() {
                return true;
            }

            @Override
            public void close() {}
        };
    }

    @Override
    public void doNotWait() {}
}
