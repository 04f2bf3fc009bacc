package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class TimedCallTest {

    private static final Duration LONG = Duration.ofSeconds(50);

    @Test
    void handsBackWhatWasFoundByADaemon() throws IOException {
        Thread asker = TimedCall.within(LONG, "ask", Thread::currentThread);
        assertThat(asker.isDaemon()).isTrue();
        assertThat(asker).isNotSameAs(Thread.currentThread());
    }

    @Test
    void handsOnWhatWasThrown() {
        IOException io = new IOException("no");
        IllegalStateException bug = new IllegalStateException("bug");
        assertThatThrownBy(() -> TimedCall.within(LONG, "ask", () -> {
                    throw io;
                }))
                .isSameAs(io);
        assertThatThrownBy(() -> TimedCall.within(LONG, "ask", () -> {
                    throw bug;
                }))
                .isSameAs(bug);
        assertThatThrownBy(() -> TimedCall.within(LONG, "ask", () -> {
                    throw new TimeoutException("own");
                }))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("could not ask")
                .hasMessageContaining("own");
    }

    @Test
    void givesUpWithoutDisturbingTheOneThatHangs() {
        CountDownLatch hang = new CountDownLatch(1);
        AtomicReference<Thread> hung = new AtomicReference<>();
        assertThatThrownBy(() -> TimedCall.within(Duration.ofMillis(1), "read the size of /mnt/a", () -> {
                    hung.set(Thread.currentThread());
                    hang.await();
                    return 1;
                }))
                .isInstanceOf(TimedCall.TookTooLongException.class)
                .hasMessage("gave up after 1 ms: read the size of /mnt/a");
        Thread thread = hung.get();
        assertThat(thread == null || (thread.isAlive() && !thread.isInterrupted()))
                .isTrue();
        hang.countDown();
    }

    @Test
    void letsItselfBeInterrupted() {
        Thread.currentThread().interrupt();
        CountDownLatch hang = new CountDownLatch(1);
        assertThatThrownBy(() -> TimedCall.within(LONG, "ask", () -> {
                    hang.await();
                    return 1;
                }))
                .isInstanceOf(InterruptedIOException.class);
        assertThat(Thread.interrupted()).isTrue();
        hang.countDown();
    }
}
