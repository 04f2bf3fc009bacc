package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ReportPageTest {

    @Test
    void savesAPageWithTheVerdictFirst(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("report.html");
        ReportPage.save(file, Showcase.fail());
        String page = Files.readString(file);
        assertThat(page.indexOf("This drive loses audio")).isPositive().isLessThan(page.indexOf("Criteria"));
        try (var left = Files.list(folder)) {
            assertThat(left).containsExactly(file);
        }
    }
}
