package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * A card whose allocation units are partly used: before it writes into the free recording units of one, it moves the
 * used ones elsewhere. SD Physical Layer Simplified Specification 4.10, §4.13, formula (1): with Nu of N recording units
 * used the rate is (N − Nu)·Pm·Pw ÷ ((N − Nu)·Pm + Nu·Pw).
 *
 * @param writeBytesPerSecond Pw, rate into free units in B/s
 * @param moveBytesPerSecond Pm, rate of moving used units in B/s
 * @param readBytesPerSecond rate of reads in B/s
 * @param units N, recording units of an allocation unit
 * @param used Nu, how many of them are used
 * @param unitBytes size of a recording unit in bytes; 512 KB for class 10 and faster
 */
public record FragmentedUnits(
        long writeBytesPerSecond, long moveBytesPerSecond, long readBytesPerSecond, int units, int used, int unitBytes)
        implements Behaviour {

    public FragmentedUnits {
        new Limits()
                .rate("write", writeBytesPerSecond)
                .rate("move", moveBytesPerSecond)
                .rate("read", readBytesPerSecond)
                .count("units", units, 1, 4096)
                .count("used", used, 0, units - 1)
                .bytes("unit", unitBytes, 4096, 64 << 20)
                .hold();
    }

    @Override
    public String says() {
        return "has " + used + " of every " + units + " recording units used and moves them out of the way";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new State();
    }

    private final class State implements Effect {

        private final long moveNs = Rates.ns((long) used * unitBytes, moveBytesPerSecond);
        private final long freeBytes = (long) (units - used) * unitBytes;
        private long leftBytes;

        @Override
        public void shape(Call call) {
            if (!call.isWrite()) {
                call.add(Rates.ns(call.bytes(), readBytesPerSecond));
                return;
            }
            call.add(Rates.ns(call.bytes(), writeBytesPerSecond));
            leftBytes -= call.bytes();
            while (leftBytes < 0) {
                leftBytes += freeBytes;
                call.add(moveNs);
            }
        }
    }
}
