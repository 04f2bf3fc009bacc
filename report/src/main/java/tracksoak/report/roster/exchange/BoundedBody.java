package tracksoak.report.roster.exchange;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpResponse.BodySubscriber;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow.Subscription;
import org.jspecify.annotations.Nullable;

/** Collects the body of an answer up to a limit, and hangs up beyond it. Used for one answer. */
final class BoundedBody implements BodySubscriber<byte[]> {

    private final int mostBytes;
    private final ByteArrayOutputStream body = new ByteArrayOutputStream();
    private final CompletableFuture<byte[]> whole = new CompletableFuture<>();
    private @Nullable Subscription subscription;

    /** The answer is larger than it may be. */
    static final class TooLarge extends IOException {
        private static final long serialVersionUID = 1L;

        TooLarge() {
            super("the answer is too large");
        }
    }

    BoundedBody(int mostBytes) {
        this.mostBytes = mostBytes;
    }

    @Override
    public CompletionStage<byte[]> getBody() {
        return whole;
    }

    @Override
    public void onSubscribe(Subscription given) {
        subscription = given;
        given.request(Long.MAX_VALUE);
    }

    @Override
    public void onNext(List<ByteBuffer> parts) {
        for (ByteBuffer part : parts) {
            if (part.remaining() > mostBytes - body.size()) {
                if (subscription != null) {
                    subscription.cancel();
                }
                whole.completeExceptionally(new TooLarge());
                return;
            }
            byte[] bytes = new byte[part.remaining()];
            part.get(bytes);
            body.writeBytes(bytes);
        }
    }

    @Override
    public void onError(Throwable thrown) {
        whole.completeExceptionally(thrown);
    }

    @Override
    public void onComplete() {
        whole.complete(body.toByteArray());
    }
}
