package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Goes to sleep when left alone, and takes its time to wake up. Manufacturers' manuals give 10 to 15 s at most from
 * power-on to ready, and 11 s typical, 31 s at most, from standby.
 *
 * @param sleepAfterNs idle time after which it sleeps, in ns
 * @param wakeNs time to wake up, in ns
 * @param asleepAtFirst whether it sleeps when the run begins
 */
public record SpinUp(long sleepAfterNs, long wakeNs, boolean asleepAtFirst) implements Behaviour {

    public SpinUp {
        new Limits().time("sleep_after", sleepAfterNs).time("wake", wakeNs).hold();
    }

    @Override
    public String says() {
        return "sleeps after " + FigureText.time(sleepAfterNs) + " without work and takes " + FigureText.time(wakeNs)
                + " to wake up";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private boolean asleep = asleepAtFirst;

            @Override
            public void shape(Call call) {
                if (asleep || call.idleNs() > sleepAfterNs) {
                    call.add(wakeNs);
                }
                asleep = false;
            }
        };
    }
}
