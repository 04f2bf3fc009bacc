package tracksoak.profiles;

import java.util.List;

/** Sessions for tests. */
final class Sessions {
    private Sessions() {}

    static Session of(FileLayout layout, long lengthS, long fileLimitBytes, List<TrackGroup> groups) {
        return Session.builder()
                .name("test")
                .title("Test")
                .kind(SessionKind.RECORDING)
                .groups(groups)
                .lengthS(lengthS)
                .layout(layout)
                .chunkBytes(65_536)
                .arrival(Arrival.BURST)
                .writers(1)
                .flushS(10)
                .bufferS(2)
                .bufferAssumed(true)
                .fileLimitBytes(fileLimitBytes)
                .fileSystems(List.of("exfat", "fat32"))
                .stallLimitMs(250)
                .margins(new Margins(1.25, 1.5, 2, 1.25, 1250, 15_000))
                .build();
    }
}
