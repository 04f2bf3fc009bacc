package tracksoak.bench.rig;

import java.io.File;
import java.io.IOException;
import java.lang.reflect.AnnotatedElement;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;

/** Decides whether this machine can carry a test marked {@link NeedsRig}, {@link NeedsGuest} or {@link NeedsCommand}. */
public final class RigCondition implements ExecutionCondition {

    /** What the rig starts. */
    static final List<String> COMMANDS = List.of(
            "gcc",
            "nbdkit",
            "nbdfuse",
            "setsid",
            "fusermount3",
            "losetup",
            "mount",
            "umount",
            "blockdev",
            "mkfs.ext4",
            "mkfs.exfat",
            "mount.exfat-fuse",
            "mkfs.vfat",
            "fusefat");

    private static final int CAP_SYS_ADMIN = 21;

    @Override
    public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
        List<String> missing = new ArrayList<>();
        context.getElement().ifPresent(element -> {
            NeedsRig rig = element.getAnnotation(NeedsRig.class);
            if (rig != null) {
                missing.addAll(missingForRig());
                if (rig.throttle()) {
                    Throttle.missing().ifPresent(missing::add);
                }
            }
            if (element.isAnnotationPresent(NeedsGuest.class)) {
                missing.addAll(Guest.missing());
            }
            needed(element).filter(RigCondition::isMissing).forEach(missing::add);
        });
        return decide(missing, required());
    }

    /**
     * @param missing what this machine lacks
     * @param required whether a machine without it is an error
     * @throws IllegalStateException if something is missing and required: the test then counts as failed
     */
    static ConditionEvaluationResult decide(List<String> missing, boolean required) {
        if (missing.isEmpty()) {
            return ConditionEvaluationResult.enabled("everything needed is here");
        }
        String reason = "not on this machine: " + String.join(", ", missing);
        if (required) {
            throw new IllegalStateException(reason + "; CI=true makes this test required");
        }
        return ConditionEvaluationResult.disabled(reason);
    }

    /** Whether tests that cannot run here must fail instead of being skipped. */
    static boolean required() {
        return "true".equalsIgnoreCase(System.getenv("CI"));
    }

    /** Whole path of a command, empty if it is not installed. */
    public static Optional<Path> find(String command) {
        String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
        return Stream.concat(Stream.of(path.split(File.pathSeparator)), Stream.of("/usr/sbin", "/sbin"))
                .filter(folder -> !folder.isEmpty())
                .map(folder -> Path.of(folder).resolve(command))
                .filter(Files::isExecutable)
                .findFirst();
    }

    private static boolean isMissing(String needed) {
        return needed.startsWith("/")
                ? !Files.exists(Path.of(needed))
                : find(needed).isEmpty();
    }

    private static Stream<String> needed(AnnotatedElement element) {
        NeedsCommand needs = element.getAnnotation(NeedsCommand.class);
        return needs == null ? Stream.empty() : Stream.of(needs.value());
    }

    private static List<String> missingForRig() {
        if (!System.getProperty("os.name").equals("Linux")) {
            return List.of("Linux");
        }
        List<String> missing = new ArrayList<>();
        if (!mayMount()) {
            missing.add("root with the right to mount");
        }
        for (String needed : List.of("/dev/fuse", "/dev/loop-control", "/usr/include/nbdkit-plugin.h")) {
            if (!Files.exists(Path.of(needed))) {
                missing.add(needed);
            }
        }
        COMMANDS.stream().filter(command -> find(command).isEmpty()).forEach(c -> missing.add("command " + c));
        return missing;
    }

    private static boolean mayMount() {
        try (Stream<String> status = Files.lines(Path.of("/proc/self/status"))) {
            return status.filter(line -> line.startsWith("CapEff:"))
                    .map(line -> Long.parseUnsignedLong(line.substring(7).strip(), 16))
                    .anyMatch(capabilities -> (capabilities >> CAP_SYS_ADMIN & 1) == 1);
        } catch (IOException e) {
            return false;
        }
    }
}
