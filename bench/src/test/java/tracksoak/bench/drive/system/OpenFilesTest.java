package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

class OpenFilesTest {

    /** A process that opens a file until it may open no more. */
    public static final class Hoarder {

        private Hoarder() {}

        /** Opens the file that is named as often as it may. */
        public static void main(String[] args) {
            boolean before = OpenFiles.oneMore();
            List<InputStream> open = new ArrayList<>();
            String after = "";
            try {
                while (open.size() < 10_000) {
                    open.add(Files.newInputStream(Path.of(args[0])));
                }
            } catch (IOException noMore) {
                after = String.valueOf(OpenFiles.oneMore());
            }
            System.out.print(before + " " + after);
        }
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void tellsWhetherTheProcessMayOpenOneMore() throws IOException {
        Process hoarder = new ProcessBuilder(
                        "sh",
                        "-c",
                        "ulimit -n 120; exec \"$@\"",
                        "sh",
                        Path.of(System.getProperty("java.home", ""), "bin", "java")
                                .toString(),
                        "-Xmx32m",
                        "-cp",
                        System.getProperty("java.class.path", ""),
                        Hoarder.class.getName(),
                        Path.of(System.getProperty("java.home", ""), "release").toString())
                .start();
        assertThat(new String(hoarder.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                .isEqualTo("true false");
    }

    @Test
    void knowsNothingAgainstItWhereItsFileIsNotThere() {
        assertThat(OpenFiles.oneMore(Path.of("not", "there"))).isTrue();
    }
}
