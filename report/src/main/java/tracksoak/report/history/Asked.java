package tracksoak.report.history;

/**
 * The same question is asked again at every requalification, and each time chance alone may answer it with yes. So each look gets a part of
 * the level: the k-th one 1 ÷ (k · (k + 1)) of it. These parts add up to 1 (½ + ⅙ + 1⁄12 + …), so that over all looks there
 * will ever be the level holds (Boole's inequality; parting a level over looks: Lan and DeMets 1983). Pure.
 */
final class Asked {

    private Asked() {}

    /**
     * A chance made fit to be compared with the whole level, whatever was asked before.
     *
     * @param chance of this look alone, 0…1
     * @param runs looked at; the first look has {@link DriveHistory#LEAST_RUNS}, and each run may have been asked about
     */
    static double again(double chance, int runs) {
        double look = Math.max(1, runs - DriveHistory.LEAST_RUNS + 1);
        return Math.min(1, chance * look * (look + 1));
    }
}
