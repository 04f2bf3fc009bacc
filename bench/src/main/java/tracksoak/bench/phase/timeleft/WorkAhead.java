package tracksoak.bench.phase.timeleft;

/** Walks over the steps still ahead of a run and adds up what they will leave on the drive to be read back. */
public final class WorkAhead {

    public final Pace pace;
    private double unreadBytes;

    /**
     * Starts where the run is.
     *
     * @param unreadBytes on the drive and not read back yet
     */
    public WorkAhead(Pace pace, double unreadBytes) {
        this.pace = pace;
        this.unreadBytes = unreadBytes;
    }

    /** A step will leave so many bytes. */
    public void leaves(double bytes) {
        unreadBytes += bytes;
    }

    /** A step will read back all that is there; its bytes. */
    public double readsAll() {
        double bytes = unreadBytes;
        unreadBytes = 0;
        return bytes;
    }
}
