package tracksoak.bench.climb;

/**
 * How a climb is made.
 *
 * @param least lowest rung there is, at least 1
 * @param most highest rung there is
 * @param start rung to begin with when asking for margins
 * @param lossStart rung to begin with when asking for losses
 * @param askLoss whether it is also asked how far it goes before audio is lost
 * @param proveAbove whether a check must show that the rung above the answer does not hold; else a take is enough
 * @param oneByOne whether every rung is looked at by itself, from the lowest up: where a higher one says nothing of a lower one
 * @param patience looks at one rung that may come to nothing before the question is given up
 */
public record Rules(
        int least,
        int most,
        int start,
        int lossStart,
        boolean askLoss,
        boolean proveAbove,
        boolean oneByOne,
        int patience) {

    public Rules {
        if (least < 1 || most < least || patience < 1) {
            throw new IllegalArgumentException(
                    "rungs " + least + " to " + most + " with patience " + patience + " cannot be climbed");
        }
        start = oneByOne ? least : Math.max(least, Math.min(most, start));
        lossStart = oneByOne ? least : Math.max(least, Math.min(most, lossStart));
    }
}
