package tracksoak.bench.drive.find;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.TimedCall;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;

/** Whether a run may be made at a place at all, judged before anything is written there. */
public final class Suitability {

    /** The reserve is at least this, in bytes. */
    public static final long LEAST_RESERVE = 256L << 20;

    /** What to do with a volume that was pulled while it was written. */
    public static final String MEND = "have it checked or format it in the recorder";

    /** What is said of a volume that is dirty. */
    public static final String NOT_IN_ORDER = "not unmounted in order: " + MEND;

    private static final String WHY_DIRTY = "it was pulled while it was written, or not ejected, or errors were met";

    private static final int RESERVE_DIVISOR = 20;

    private Suitability() {}

    /**
     * Something that speaks against a run.
     *
     * @param refused whether the run is refused; otherwise it is a warning
     * @param what what was looked at
     * @param value what was found
     * @param why why that matters
     * @param advice what to do
     */
    public record Finding(boolean refused, String what, String value, String why, String advice) {

        /** All of it in one line that is safe to print. */
        public String sentence() {
            return Inert.text(what + " " + value) + ": " + why + "; " + advice;
        }
    }

    /**
     * What the path itself is.
     *
     * @param path as the user gave it
     * @param folder whether it is a folder
     * @param writable whether this user may make folders in it
     */
    public record Target(Path path, boolean folder, boolean writable) {

        /**
         * Looks at a path.
         *
         * @throws IOException if the drive does not answer within 60 s
         */
        public static Target of(Path path) throws IOException {
            return TimedCall.within(
                    RealDrive.PATIENCE,
                    "look at " + path,
                    () -> new Target(path, Files.isDirectory(path), Files.isWritable(path)));
        }
    }

    /** Whether the volume says that it was not unmounted in order, or that errors were met. */
    public static boolean dirty(DriveFacts drive) {
        return Boolean.TRUE.equals(drive.volume().dirty());
    }

    /** Room that stays free: 5 % of the file system or 256 MiB, the larger. */
    public static long reserveBytes(long fileSystemBytes) {
        return Math.max(LEAST_RESERVE, fileSystemBytes / RESERVE_DIVISOR);
    }

    /** What to do about the system's drive, whose figures are unreliable. */
    public enum SystemDrive {
        ALLOWED,
        MAY_BE_ALLOWED,
        NEVER
    }

    /** What speaks against any run, before a plan is chosen and where the system's own drive cannot be allowed; refusals first. */
    public static List<Finding> beforePlan(FoundDrive drive, Target target) {
        Long size = drive.facts().fileSystemBytes();
        return of(drive, target, 0, reserveBytes(size == null ? 0 : size), SystemDrive.NEVER);
    }

    /**
     * Everything that speaks against a run, refusals first.
     *
     * @param drive where the path leads
     * @param target the path
     * @param plannedBytes room the plan needs at once, in bytes
     * @param reserveBytes room that stays free, in bytes
     * @param system what to do about the system's own drive
     */
    public static List<Finding> of(
            FoundDrive drive, Target target, long plannedBytes, long reserveBytes, SystemDrive system) {
        List<Finding> findings = new ArrayList<>();
        if (!target.folder()) {
            findings.add(refusal(
                    "path",
                    target.path().toString(),
                    "it is not a folder",
                    "name a folder on the drive, for example the one it is mounted at"));
        }
        findings.addAll(place(drive, system == SystemDrive.ALLOWED));
        findings.addAll(system(drive.facts(), system));
        if (drive.readOnly()) {
            findings.add(refusal(
                    "drive",
                    String.valueOf(drive.facts().mount()),
                    "it refuses writes",
                    "move its lock switch, mount it for writing, or repair its file system"));
        } else if (target.folder() && !target.writable()) {
            findings.add(refusal(
                    "folder",
                    target.path().toString(),
                    "this user may not write there",
                    "name another folder on the drive, or change its owner"));
        }
        findings.addAll(room(drive.facts(), plannedBytes, reserveBytes));
        if (dirty(drive.facts())) {
            findings.add(warning("volume", "marked dirty", WHY_DIRTY, MEND));
        }
        if (drive.facts().linkSuspect()) {
            findings.add(warning(
                    "link speed",
                    String.format(Locale.ROOT, "%.0f Mbit/s", drive.facts().linkMbps()),
                    "the system prints this also when it does not know",
                    "check port and cable"));
        }
        findings.sort((a, b) -> Boolean.compare(b.refused(), a.refused()));
        return List.copyOf(findings);
    }

    private static List<Finding> place(FoundDrive drive, boolean allowSystem) {
        String type = "of type " + TradeName.orNull(drive.facts().fileSystem()) + " at "
                + drive.facts().mount();
        return switch (drive.place()) {
            case DRIVE -> List.of();
            case ARRAY ->
                List.of(warning(
                        "device",
                        String.valueOf(drive.facts().node()),
                        "it is made of several drives, so the verdict is of all of them together and of none alone",
                        "name a folder on a drive that stands alone if one is meant"));
            case SPREAD ->
                List.of(refusal(
                        "file system",
                        type,
                        "it lies, or may lie, on several drives at once, so a verdict of one would be of all of them",
                        "name a folder on a drive that stands alone"));
            case NETWORK ->
                List.of(refusal(
                        "file system", type, "it is on another computer", "name a folder on a drive plugged in here"));
            case MEMORY ->
                List.of(refusal(
                        "file system",
                        type,
                        "it is in this computer's memory",
                        "name a folder on a drive plugged in here"));
            case KERNEL ->
                List.of(refusal("file system", type, "it is no drive", "name a folder on a drive plugged in here"));
            case LAYERED ->
                List.of(new Finding(
                        !allowSystem,
                        "file system",
                        type,
                        "it is laid over others, so which drive is tested cannot be told",
                        allowSystem
                                ? "read the figures with that in mind"
                                : "name a folder on a drive plugged in here"));
        };
    }

    private static List<Finding> system(DriveFacts facts, SystemDrive system) {
        String value = String.valueOf(facts.mount());
        if (Boolean.TRUE.equals(facts.system())) {
            return List.of(new Finding(
                    system != SystemDrive.ALLOWED,
                    "drive",
                    value,
                    "it is the system drive: results would be unreliable",
                    switch (system) {
                        case ALLOWED -> "expect NO VERDICT where the computer got in the way";
                        case MAY_BE_ALLOWED ->
                            "name a folder on another drive, or allow the system's drive if you mean it";
                        case NEVER -> "test another drive";
                    }));
        }
        return facts.system() == null && facts.node() != null
                ? List.of(warning(
                        "drive",
                        value,
                        "it could not be told whether this computer runs from it",
                        "make sure it does not"))
                : List.of();
    }

    /**
     * Whether the drive has room for a plan.
     *
     * @param plannedBytes room the plan needs at once, in bytes
     * @param reserve room that stays free, in bytes
     */
    public static List<Finding> room(DriveFacts facts, long plannedBytes, long reserve) {
        Long free = facts.freeBytes();
        if (free == null) {
            return List.of(warning(
                    "free room", "unknown", "the drive does not tell it", "make sure there is enough for the plan"));
        }
        if (free - reserve >= plannedBytes) {
            return List.of();
        }
        return List.of(refusal(
                "free room",
                Units.bytes(free),
                plannedBytes == 0
                        ? "any run leaves " + Units.bytes(reserve) + " free and needs room beside"
                        : "the plan needs " + Units.bytes(plannedBytes) + ", and " + Units.bytes(reserve)
                                + " stay free",
                plannedBytes == 0
                        ? "delete what is not needed, use a larger drive, or ask for a smaller reserve with --reserve"
                        : "delete what is not needed, or ask for a shorter plan or a smaller reserve with --reserve"));
    }

    /**
     * Whether the file system takes the files of a run.
     *
     * @param left how many more it takes, null if it does not tell
     * @param needed how many the run has at once
     */
    public static List<Finding> files(@Nullable Long left, int needed) {
        return left == null || left >= needed
                ? List.of()
                : List.of(refusal(
                        "free files",
                        String.valueOf(left),
                        "the file system takes no more, however much room is free, and the run makes at least "
                                + needed,
                        "delete files that are not needed, or format the drive in the recorder"));
    }

    private static Finding refusal(String what, String value, String why, String advice) {
        return new Finding(true, what, value, why, advice);
    }

    private static Finding warning(String what, String value, String why, String advice) {
        return new Finding(false, what, value, why, advice);
    }
}
