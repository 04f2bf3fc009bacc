package tracksoak.bench.command.standin;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.StandIn;
import tracksoak.bench.standin.StandInListener;

class ServeOptionsTest {

    @TempDir
    Path folder;

    private long served(long asked, String trace) {
        ServeOptions options = new ServeOptions();
        options.image = folder.resolve("wagon.img");
        options.sizeBytes = asked;
        try (StandIn standIn = options.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                folder.resolve(trace),
                null,
                StandInListener.NONE,
                RequestWatch.NONE)) {
            return standIn.sizeBytes();
        }
    }

    /** 100 MB are 195,312.5 of them. */
    @Test
    void aSizeThatEndsInsideABlockIsRoundedDown() {
        assertThat(served(100_000_000, "one")).isEqualTo(99_999_744);
        assertThat(served(100_000_000, "again")).isEqualTo(99_999_744);
    }
}
