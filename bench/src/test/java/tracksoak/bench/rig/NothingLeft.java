package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/** After each test marked {@link NeedsRig}: every rig and every loop-mounted drive has been taken down. */
final class NothingLeft implements AfterEachCallback {

    @Override
    public void afterEach(ExtensionContext context) {
        assertThat(Stream.concat(RigFolder.leftovers().stream(), LoopMount.leftovers().stream()))
                .as("mounts, devices and processes that the test left behind")
                .isEmpty();
    }
}
