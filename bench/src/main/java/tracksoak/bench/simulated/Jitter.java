package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Never takes the same time twice: each call takes up to so much longer, all amounts equally likely.
 *
 * @param mostPermille most a call gets longer, in thousandths
 */
public record Jitter(int mostPermille) implements Behaviour {

    public Jitter {
        new Limits().share("most", mostPermille, 1, 100_000).hold();
    }

    @Override
    public String says() {
        return "varies from call to call by up to " + mostPermille / 10 + " %";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) {
                call.add(call.serviceNs() * random.nextInt(mostPermille + 1) / 1000);
            }
        };
    }
}
