package tracksoak.profiles;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Collects the values that differ for one run; null, or never said, means as the profile says. Units and meanings as in
 * {@link SessionOverrides}. Confined to one thread.
 */
public final class SessionOverridesBuilder {
    private @Nullable Integer tracks;
    private @Nullable Integer sampleRateHz;
    private @Nullable SampleFormat format;
    private @Nullable Long lengthS;
    private @Nullable FileLayout layout;
    private @Nullable Long chunkBytes;
    private @Nullable Arrival arrival;
    private @Nullable Integer writers;
    private @Nullable Double flushS;
    private @Nullable Double bufferS;
    private @Nullable Long fileLimitBytes;
    private @Nullable List<String> fileSystems;
    private @Nullable Long stallLimitMs;
    private @Nullable Double marginBuffer;
    private @Nullable Double marginRate;
    private @Nullable Double marginPort;
    private @Nullable Double marginPlayback;
    private @Nullable Long longestStallMs;
    private @Nullable Long closeMs;

    SessionOverridesBuilder() {}

    public SessionOverridesBuilder tracks(@Nullable Integer value) {
        tracks = value;
        return this;
    }

    public SessionOverridesBuilder sampleRateHz(@Nullable Integer value) {
        sampleRateHz = value;
        return this;
    }

    public SessionOverridesBuilder format(@Nullable SampleFormat value) {
        format = value;
        return this;
    }

    public SessionOverridesBuilder lengthS(@Nullable Long value) {
        lengthS = value;
        return this;
    }

    public SessionOverridesBuilder layout(@Nullable FileLayout value) {
        layout = value;
        return this;
    }

    public SessionOverridesBuilder chunkBytes(@Nullable Long value) {
        chunkBytes = value;
        return this;
    }

    public SessionOverridesBuilder arrival(@Nullable Arrival value) {
        arrival = value;
        return this;
    }

    public SessionOverridesBuilder writers(@Nullable Integer value) {
        writers = value;
        return this;
    }

    public SessionOverridesBuilder flushS(@Nullable Double value) {
        flushS = value;
        return this;
    }

    public SessionOverridesBuilder bufferS(@Nullable Double value) {
        bufferS = value;
        return this;
    }

    public SessionOverridesBuilder fileLimitBytes(@Nullable Long value) {
        fileLimitBytes = value;
        return this;
    }

    public SessionOverridesBuilder fileSystems(@Nullable List<String> value) {
        fileSystems = value;
        return this;
    }

    public SessionOverridesBuilder stallLimitMs(@Nullable Long value) {
        stallLimitMs = value;
        return this;
    }

    public SessionOverridesBuilder marginBuffer(@Nullable Double value) {
        marginBuffer = value;
        return this;
    }

    public SessionOverridesBuilder marginRate(@Nullable Double value) {
        marginRate = value;
        return this;
    }

    public SessionOverridesBuilder marginPort(@Nullable Double value) {
        marginPort = value;
        return this;
    }

    public SessionOverridesBuilder marginPlayback(@Nullable Double value) {
        marginPlayback = value;
        return this;
    }

    public SessionOverridesBuilder longestStallMs(@Nullable Long value) {
        longestStallMs = value;
        return this;
    }

    public SessionOverridesBuilder closeMs(@Nullable Long value) {
        closeMs = value;
        return this;
    }

    public SessionOverrides build() {
        return new SessionOverrides(
                tracks,
                sampleRateHz,
                format,
                lengthS,
                layout,
                chunkBytes,
                arrival,
                writers,
                flushS,
                bufferS,
                fileLimitBytes,
                fileSystems,
                stallLimitMs,
                marginBuffer,
                marginRate,
                marginPort,
                marginPlayback,
                longestStallMs,
                closeMs);
    }
}
