package tracksoak.bench.simulated;

import java.util.SplittableRandom;

/**
 * Takes writes into a small memory of its own and pays for them at the next flush, when everything else waits. Closed
 * form: a flush takes fixed + bytes since the last one ÷ rate. From memory; common with cheap sticks.
 *
 * @param fixedNs time of every flush in ns
 * @param bytesPerSecond rate at which the flush writes what waits, in B/s
 */
public record SerialFlush(long fixedNs, long bytesPerSecond) implements Behaviour {

    public SerialFlush {
        Rates.time("time of a flush in ns", fixedNs);
        Rates.rate("rate of a flush in B/s", bytesPerSecond);
    }

    @Override
    public String says() {
        return "writes what waits at " + Words.rate(bytesPerSecond) + " on every flush while all else stands still";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private long waitingBytes;

            @Override
            public void shape(Call call) {
                switch (call.kind()) {
                    case WRITE -> waitingBytes += call.bytes();
                    case FLUSH, SYNC_FOLDER -> {
                        call.add(fixedNs + Rates.ns(waitingBytes, bytesPerSecond));
                        waitingBytes = 0;
                    }
                    case READ, CREATE, OPEN, CLOSE, DELETE -> {}
                }
            }
        };
    }
}
