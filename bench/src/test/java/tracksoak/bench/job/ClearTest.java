package tracksoak.bench.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.FileSystemException;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Problem;

class ClearTest {

    @Test
    void aDriveThatRefusesIsNotSaidToHoldSomethingElse() {
        Problem refused = Clear.notDeleted(
                "TRACKSOAK-0c07398f", new FileSystemException("take\u001b.soak", null, "Read-only file system"));
        assertThat(refused.kind().ofTheAsker()).isFalse();
        assertThat(refused.what())
                .contains("\"TRACKSOAK-0c07398f\" was not deleted", "Read-only file system")
                .doesNotContain("\u001b");
        assertThat(refused.todo()).contains("takes writes", "then clear again");
    }
}
