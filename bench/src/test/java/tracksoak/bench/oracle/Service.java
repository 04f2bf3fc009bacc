package tracksoak.bench.oracle;

import java.util.SplittableRandom;
import java.util.function.ToLongFunction;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.Call;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.Effect;

/** A drive of queueing theory: each write takes what a law of chance says, whatever its size. */
record Service(String says, ToLongFunction<SplittableRandom> law) implements Behaviour {

    static DriveModel drive(String says, long seed, ToLongFunction<SplittableRandom> law) {
        System.out.println(says + ": seed " + seed);
        return DriveModel.of("queue", says, seed, 1L << 42, new Service(says, law));
    }

    static DriveModel exponential(long seed, double meanNs) {
        return drive(
                "exponential service of " + meanNs + " ns",
                seed,
                random -> Math.round(-StrictMath.log(1 - random.nextDouble()) * meanNs));
    }

    static DriveModel constant(long ns) {
        return drive("constant service of " + ns + " ns", 0, random -> ns);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) {
                if (call.isWrite()) {
                    call.add(law.applyAsLong(random));
                }
            }
        };
    }
}
