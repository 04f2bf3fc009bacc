package tracksoak.profiles;

import java.util.List;

/** Sessions for tests. */
final class Sessions {
    private Sessions() {}

    static Session of(FileLayout layout, long lengthS, long fileLimitBytes, List<TrackGroup> groups) {
        return new Session(
                "test",
                "Test",
                "",
                SessionKind.RECORDING,
                groups,
                List.of(),
                lengthS,
                layout,
                65_536,
                Arrival.BURST,
                1,
                10,
                2,
                true,
                fileLimitBytes,
                List.of("exfat", "fat32"),
                250,
                90,
                new Margins(1.25, 1.5, 2, 1.25, 1250, 15_000));
    }
}
