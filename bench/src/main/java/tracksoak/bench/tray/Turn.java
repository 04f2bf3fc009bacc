package tracksoak.bench.tray;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.run.Traffic;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Waiter;

/**
 * A run's right to work. At the session's pace it works beside others, as long as their links and the computer carry them all; flat out
 * it has its links for itself. Whoever has worked flat out on a link stays the one who may until its run ends, since a take must
 * follow its fill at once: others may take there meanwhile, but not fill. Runs whose links are not known work alone. One thread.
 */
public final class Turn implements AutoCloseable {

    /** A link is shared in hundredths. */
    private static final int LINK = 100;

    private static final long LOOK_NS = 300_000_000;

    private final Wish wish;
    private final NanoClock clock;
    private final Waiter waiter;
    private final Parts computer;
    /** Of each link, first the right to work flat out there, then the link itself. */
    private final List<Parts> rights = new ArrayList<>();

    private final List<Parts> links = new ArrayList<>();
    private @Nullable Traffic now;

    /**
     * What decides whose turn it is.
     *
     * @param stateFolder of this computer
     * @param links what the drive shares, null if not known
     * @param alone whether it must have the computer for itself
     * @param share part of its links that it needs at the session's pace, with the margins; 1 or more if it must have them for itself
     * @param processors of this computer: at the session's pace a run needs one, flat out two
     */
    public record Wish(Path stateFolder, @Nullable List<String> links, boolean alone, double share, int processors) {

        private List<String> shared() {
            return alone || links == null ? List.of() : links;
        }

        private boolean all() {
            return alone || links == null;
        }
    }

    private Turn(Wish wish, NanoClock clock, Waiter waiter) throws IOException {
        Path folder = wish.stateFolder().resolve("turns");
        this.wish = wish;
        this.clock = clock;
        this.waiter = waiter;
        this.computer = new Parts(folder.resolve("computer"), wish.processors());
        for (String link : wish.shared()) {
            String name = link.replaceAll("[^A-Za-z0-9.]", "-");
            rights.add(new Parts(folder.resolve("flat-out-" + name), 1));
            links.add(new Parts(folder.resolve("link-" + name), LINK));
        }
    }

    /**
     * Waits until it may work at the session's pace.
     *
     * @param stop ends the waiting
     * @param waits told once each time something else is waited for
     * @return null if it was stopped
     */
    public static @Nullable Turn take(
            Wish wish, NanoClock clock, Waiter waiter, BooleanSupplier stop, Consumer<String> waits) {
        Turn turn = null;
        boolean mine = false;
        try {
            turn = new Turn(wish, clock, waiter);
            mine = turn.becomes(Traffic.AT_PACE, stop, waits);
            return mine ? turn : null;
        } catch (IOException e) {
            throw cannot(wish, e);
        } finally {
            if (turn != null && !mine) {
                turn.close();
            }
        }
    }

    /**
     * Waits until it may work so. From flat out to the session's pace there is no waiting.
     *
     * @return false if it was stopped
     */
    public boolean becomes(Traffic traffic, BooleanSupplier stop, Consumer<String> waits) {
        if (traffic == now || (wish.all() && now != null)) {
            return true;
        }
        try {
            Patience patience = new Patience(stop, waits);
            boolean mine = wish.all()
                    ? patience.hold(computer, computer.all(), "the runs before it")
                    : traffic == Traffic.AT_PACE ? atPace(patience) : flatOut(patience);
            now = mine ? traffic : null;
            return mine;
        } catch (IOException e) {
            throw cannot(wish, e);
        }
    }

    private boolean atPace(Patience patience) throws IOException {
        int share = (int) Math.ceil(LINK * Math.min(1, wish.share()));
        for (Parts link : links) {
            if (!patience.hold(link, share, "other drives on its link")) {
                return false;
            }
        }
        return patience.hold(computer, 1, "a run to end: this computer carries no more at once");
    }

    private boolean flatOut(Patience patience) throws IOException {
        // whoever waits for a right holds nothing that its owner may wait for
        computer.hold(0);
        for (Parts link : links) {
            link.hold(0);
        }
        for (int i = 0; i < links.size(); i++) {
            if (!patience.hold(rights.get(i), 1, "its turn to fill or read back: another drive on its link is first")
                    || !patience.hold(links.get(i), LINK, "the takes on its link to end")) {
                return false;
            }
        }
        return patience.hold(
                computer, Math.min(2, computer.all()), "a run to end: this computer carries no more at once");
    }

    private final class Patience {

        private final BooleanSupplier stop;
        private final Consumer<String> waits;

        private Patience(BooleanSupplier stop, Consumer<String> waits) {
            this.stop = stop;
            this.waits = waits;
        }

        private boolean hold(Parts parts, int wanted, String forWhat) throws IOException {
            boolean told = false;
            while (!stop.getAsBoolean()) {
                if (parts.hold(wanted)) {
                    return true;
                }
                if (!told) {
                    told = true;
                    waits.accept(forWhat);
                }
                waiter.waitUntil(clock.nanoTime() + LOOK_NS);
            }
            return false;
        }
    }

    private static Problem cannot(Wish wish, IOException e) {
        return Problem.cannot(
                "it cannot be told whose turn it is (" + Problem.reason(e) + ")",
                "see that " + Inert.quoted(wish.stateFolder().resolve("turns")) + " may be written");
    }

    @Override
    public void close() {
        computer.close();
        rights.forEach(Parts::close);
        links.forEach(Parts::close);
    }
}
