package tracksoak.profiles;

import static org.junit.jupiter.api.Assumptions.abort;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** Runs the system's file-system tools; where one is missing the test is skipped with the reason, but fails in CI. */
final class RigTool {
    private RigTool() {}

    static void need(String... tools) {
        for (String tool : tools) {
            needThat(path(tool) != null, tool + " is not installed");
        }
    }

    static void needThat(boolean there, String whyNot) {
        if (there) {
            return;
        }
        if ("true".equals(System.getenv("CI"))) {
            throw new AssertionError("the rig is required in CI, but " + whyNot);
        }
        abort("skipped: " + whyNot);
    }

    /** Output of a command that ended well, both streams together. */
    static String run(String... command) throws IOException, InterruptedException {
        List<String> full = Stream.concat(
                        Stream.of(String.valueOf(path(command[0]))),
                        Arrays.stream(command).skip(1))
                .toList();
        ProcessBuilder builder = new ProcessBuilder(full).redirectErrorStream(true);
        builder.environment().put("LC_ALL", "C");
        Process process = builder.start();
        process.getOutputStream().close();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (!process.waitFor(60, TimeUnit.SECONDS) || process.exitValue() != 0) {
            throw new AssertionError(String.join(" ", command) + " failed:\n" + output);
        }
        return output;
    }

    private static @org.jspecify.annotations.Nullable Path path(String tool) {
        String folders = System.getenv("PATH") + File.pathSeparator + "/usr/sbin" + File.pathSeparator + "/sbin";
        return Arrays.stream(folders.split(File.pathSeparator))
                .map(folder -> Path.of(folder, tool))
                .filter(Files::isExecutable)
                .findFirst()
                .orElse(null);
    }
}
