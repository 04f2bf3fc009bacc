package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.function.Supplier;
import tracksoak.bench.drive.folder.Workspace;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.phase.TestTarget;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** One real run of the bench on a mounted drive, in bounded time, with something happening in the middle of it. */
final class Qualifying {

    /** Payload seed of every run here. */
    static final long SEED = 20_260_101;

    private final Workspace workspace;
    private final LeftOnDrive left;
    private final String id;
    private final DriveFacts facts;
    private final List<Happening> happenings = new ArrayList<>();
    private double hangLimitS = 30;
    private long reserveBytes = 16 << 20;
    private EpochClock epoch = SystemClocks.EPOCH;
    private Consumer<RunRecord> afterPhase = nothing -> {};
    private boolean hung;

    private Qualifying(Workspace workspace, LeftOnDrive left, String id, DriveFacts facts) {
        this.workspace = workspace;
        this.left = left;
        this.id = id;
        this.facts = facts;
    }

    /** Of a bad drive. */
    static Qualifying of(Rig rig) {
        return of(rig.path(), rig.device(), rig.fileSystem());
    }

    /** Of the kernel-throttled drive. */
    static Qualifying of(ThrottledDrive drive) {
        return of(drive.path(), drive.device(), FileSystem.EXT4);
    }

    /** Of a healthy ext4. */
    static Qualifying of(LoopMount drive) {
        return of(drive.path(), drive.loop(), FileSystem.EXT4);
    }

    private static Qualifying of(Path mount, Loop device, FileSystem fileSystem) {
        try {
            LeftOnDrive left = LeftOnDrive.before(mount);
            String id = new UUID(SystemClocks.NANO.nanoTime() << 16 | 0x7000L, 0x8000_0000_0000_0001L).toString();
            String now = Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis()).toString();
            Workspace workspace = Workspace.create(mount, id, now, Path.of("record.json"));
            Path folder = workspace.folder();
            long free = Files.getFileStore(mount).getUsableSpace();
            return new Qualifying(
                    workspace,
                    left,
                    id,
                    DriveFacts.builder()
                            .rotational(false)
                            .system(false)
                            .sizeBytes(device.bytes())
                            .bus("virtual")
                            .node(device.node())
                            .mount(mount.toString())
                            .folder(folder.toString())
                            .fileSystem(fileSystem.named())
                            .fileSystemBytes(Files.getFileStore(mount).getTotalSpace())
                            .freeBytes(free)
                            .build());
        } catch (IOException e) {
            throw new IllegalStateException("the rig's drive cannot be used", e);
        }
    }

    /** Gives calls up after {@code seconds}. */
    Qualifying hangLimitS(double seconds) {
        hangLimitS = seconds;
        return this;
    }

    Qualifying reserveBytes(long bytes) {
        reserveBytes = bytes;
        return this;
    }

    /** Another wall clock. */
    Qualifying epoch(EpochClock clock) {
        epoch = clock;
        return this;
    }

    /** Once the phase has gone on for {@code elapsedS}, {@code what} happens, on the run's own thread. */
    Qualifying when(PhaseKind phase, double elapsedS, Runnable what) {
        return when(progress -> progress.phase() == phase && progress.elapsedS() >= elapsedS, what);
    }

    /** Once {@code when} says so, {@code what} happens. */
    Qualifying when(Predicate<Progress> when, Runnable what) {
        happenings.add(new Happening(when, what));
        return this;
    }

    /** So many ms after a phase of this kind has ended, {@code what} happens, on a thread of its own. */
    Qualifying afterPhase(PhaseKind phase, long ms, Runnable what) {
        afterPhase = record -> {
            List<PhaseFacts> phases = record.phases();
            PhaseFacts last = phases.isEmpty() ? null : phases.get(phases.size() - 1);
            if (last == null || last.kind() != phase || !last.complete()) {
                return;
            }
            afterPhase = nothing -> {};
            Thread later = new Thread(
                    () -> {
                        SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + ms * 1_000_000);
                        what.run();
                    },
                    "what happens");
            later.setDaemon(true);
            later.start();
        };
        return this;
    }

    /** Where the run writes. */
    Path folder() {
        return workspace.folder();
    }

    /** Whether the run said that the drive must not be touched any more. */
    boolean hung() {
        return hung;
    }

    /** Names of the streams' files in the run's folder. */
    List<String> files() {
        String[] names = folder().toFile().list((where, name) -> !name.startsWith("."));
        return names == null ? List.of() : List.of(names);
    }

    /** Cleans up as the program does, with the same code: not at all while the drive hangs. Says whether it went. */
    boolean clean() {
        if (hung) {
            return false;
        }
        try {
            workspace.remove();
            return true;
        } catch (IOException refused) {
            return false;
        }
    }

    /**
     * Cleans up, and nothing of the run is on the drive any more.
     *
     * @param others names that other programs gave their files meanwhile
     */
    void leavesNothing(String... others) {
        assertThat(clean()).as("cleaned up").isTrue();
        left.nothing(folder().resolveSibling(""), others);
    }

    /**
     * Cleaning up does not go now; once {@code back} has made the drive usable again, the run's folder lies there.
     *
     * @param back says where the drive is then mounted
     */
    void leavesItsFolder(Supplier<Path> back) {
        assertThat(clean()).as("cleaned up").isFalse();
        left.theFolder(back.get(), workspace);
    }

    /**
     * Cleaning up does not go now, and once {@code back} has made the drive usable not before the files that the run given
     * up still has open are let go.
     */
    void leavesItsFolderInUse(Supplier<Path> back) {
        assertThat(clean()).as("cleaned up").isFalse();
        left.theFolderInUse(back.get(), workspace);
    }

    /**
     * Runs.
     *
     * @param limitS the run must have ended after so many s
     */
    RunRecord run(Session session, Plan plan, long limitS) {
        CompletableFuture<RunRecord> record = new CompletableFuture<>();
        Thread thread = new Thread(
                () -> {
                    try {
                        record.complete(runNow(session, plan));
                    } catch (IOException | RuntimeException | Error e) {
                        record.completeExceptionally(e);
                    }
                },
                "run under test");
        thread.setDaemon(true);
        thread.start();
        try {
            return record.get(limitS, TimeUnit.SECONDS);
        } catch (TimeoutException e) {
            AssertionError late = new AssertionError("the run had not ended after " + limitS + " s");
            late.setStackTrace(thread.getStackTrace());
            throw late;
        } catch (ExecutionException e) {
            throw new AssertionError("the run broke", e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("interrupted", e);
        }
    }

    private RunRecord runNow(Session session, Plan plan) throws IOException {
        RealDrive drive = RealDrive.open(workspace.folder());
        RunRequest request = new RunRequest(id, "tracksoak under test", session, plan, SEED, hangLimitS, reserveBytes);
        Run run = new Run(
                request,
                new TestTarget(drive, facts, SystemClocks.NANO, epoch, SystemClocks.PARK, false),
                new HostFacts("Linux", "test", null, 2, null, "test"),
                new Ears());
        RunRecord record = run.call();
        hung = run.driveHangs();
        return record;
    }

    private final class Ears implements RunListener {
        @Override
        public void progress(Progress progress) {
            happenings.forEach(happening -> happening.look(progress));
        }

        @Override
        public void snapshot(RunRecord soFar) {
            afterPhase.accept(soFar);
        }
    }

    private static final class Happening {
        private final Predicate<Progress> when;
        private final Runnable what;
        private boolean happened;

        private Happening(Predicate<Progress> when, Runnable what) {
            this.when = when;
            this.what = what;
        }

        private void look(Progress progress) {
            if (!happened && when.test(progress)) {
                happened = true;
                what.run();
            }
        }
    }
}
