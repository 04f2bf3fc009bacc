package tracksoak.bench.drive.system;

import java.io.IOException;
import java.time.Duration;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import oshi.SystemInfo;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.HostFacts;

/** Describes this computer: on Linux from the system's own files, elsewhere through OSHI. */
public final class HostProbe {

    private static final Duration LIMIT = Duration.ofSeconds(5);
    private static final Pattern CPU = Pattern.compile("(?m)^(?:model name|Model|Hardware)\\s*:\\s*(.+)$");
    private static final Pattern MEMORY = Pattern.compile("(?m)^MemTotal:\\s*(\\d{1,15}) kB$");
    private static final Pattern SYSTEM = Pattern.compile("(?m)^PRETTY_NAME=\"?([^\"\\n]*)\"?$");

    private HostProbe() {}

    /** This computer. */
    public static HostFacts host() {
        return host(SystemFiles.HERE);
    }

    static HostFacts host(SystemFiles files) {
        String cpu = cpu(files.text("/proc/cpuinfo"));
        Long memory = memoryBytes(files.text("/proc/meminfo"));
        if (memory == null) {
            Portable portable = portable();
            cpu = portable.cpu();
            memory = portable.memoryBytes();
        }
        return new HostFacts(
                system(
                        files.text("/etc/os-release"),
                        System.getProperty("os.name") + " " + System.getProperty("os.version")),
                System.getProperty("os.arch"),
                cpu,
                Runtime.getRuntime().availableProcessors(),
                memory,
                System.getProperty("java.version") + ", " + System.getProperty("java.vm.name"));
    }

    /** The processor's name in the text of {@code /proc/cpuinfo}, null if there is none. */
    static @Nullable String cpu(@Nullable String cpuinfo) {
        return Inert.kept(first(CPU, cpuinfo));
    }

    /** Main memory in bytes by the text of {@code /proc/meminfo}, null if it does not say. */
    static @Nullable Long memoryBytes(@Nullable String meminfo) {
        String kibibytes = first(MEMORY, meminfo);
        return kibibytes == null ? null : Long.valueOf(Long.parseLong(kibibytes) * 1024);
    }

    /** The system's name: the distribution's, if there is one, and the kernel's. */
    static String system(@Nullable String osRelease, String kernel) {
        String pretty = Inert.kept(first(SYSTEM, osRelease));
        return pretty == null ? kernel : pretty + " (" + kernel + ")";
    }

    private static @Nullable String first(Pattern pattern, @Nullable String text) {
        Matcher matcher = pattern.matcher(text == null ? "" : text);
        return matcher.find() ? matcher.group(1) : null;
    }

    private static Portable portable() {
        try {
            return TimedCall.within(LIMIT, "ask for processor and memory", () -> {
                SystemInfo info = new SystemInfo();
                return new Portable(
                        Inert.kept(info.getHardware()
                                .getProcessor()
                                .getProcessorIdentifier()
                                .getName()),
                        info.getHardware().getMemory().getTotal());
            });
        } catch (IOException | RuntimeException | LinkageError e) {
            return new Portable(null, null);
        }
    }

    private record Portable(@Nullable String cpu, @Nullable Long memoryBytes) {}
}
