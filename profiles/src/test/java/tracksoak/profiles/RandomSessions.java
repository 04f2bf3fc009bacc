package tracksoak.profiles;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import tracksoak.profiles.base.Seeded;

/** Sessions that obey every rule, drawn from a seed over the whole of each range. */
public final class RandomSessions {
    private static final String[] TITLES = {"Şehir tiyatrosu", "a \"quoted\" \\ title", "日本語の題", "Ende gut", "#[x] = 1"
    };
    private static final int[] RATES = {8_000, 44_100, 48_000, 88_200, 96_000, 192_000, 384_000};

    private final Random random;

    public RandomSessions(long seed) {
        random = Seeded.random(seed);
    }

    public Session next() {
        SessionKind kind = pick(SessionKind.values());
        FileLayout layout = pick(FileLayout.values());
        List<TrackGroup> groups = groups();
        List<TrackGroup> mix = kind == SessionKind.MIXDOWN ? groups() : List.of();
        int chunkBytes = 4096 * (1 + random.nextInt(64));
        // 8 kHz/16-bit is the slowest stream: 16,000 B/s.
        double chunkMostS = chunkBytes / 16_000.0;
        List<String> fileSystems = new ArrayList<>(ProfileWords.FILE_SYSTEMS);
        Collections.shuffle(fileSystems, random);
        fileSystems = fileSystems.subList(0, 1 + random.nextInt(fileSystems.size()));
        long most = fileSystems.contains("fat32") ? FileLimit.FAT32.maxFileBytes() : 1L << 50;
        long stallLimitMs = 1L + random.nextInt(60_000);
        return Session.builder()
                .name("random-" + random.nextInt(1_000))
                .title(TITLES[random.nextInt(TITLES.length)])
                .about(random.nextBoolean() ? "" : TITLES[random.nextInt(TITLES.length)])
                .kind(kind)
                .groups(groups)
                .mix(mix)
                .lengthS(1 + random.nextInt(86_400))
                .layout(layout)
                .chunkBytes(chunkBytes)
                .arrival(pick(Arrival.values()))
                .writers(1)
                .flushS(random.nextBoolean() ? 0 : chunkMostS + random.nextDouble() * 1_000)
                .bufferS(2 * chunkMostS + random.nextDouble() * 300)
                .bufferAssumed(random.nextBoolean())
                .fileLimitBytes(random.nextBoolean() ? most : most - random.nextInt(2_000_000_000))
                .fileSystems(fileSystems)
                .stallLimitMs(stallLimitMs)
                .headerS(random.nextBoolean() ? 0 : chunkMostS + random.nextInt(3_000))
                .spaceInAdvanceBytes(random.nextBoolean() ? 0 : 4096L * random.nextInt(1 << 20))
                .risk((1 + random.nextInt(999)) / 1000.0)
                .validDays(1 + random.nextInt(3650))
                .margins(new Margins(
                        1 + random.nextDouble() * 99,
                        1 + random.nextInt(99),
                        1 + random.nextDouble(),
                        100,
                        stallLimitMs + random.nextInt(540_000),
                        1 + random.nextInt(3_600_000)))
                .build();
    }

    private List<TrackGroup> groups() {
        List<TrackGroup> groups = new ArrayList<>();
        int many = 1 + random.nextInt(3);
        int firstRate = random.nextInt(RATES.length);
        for (int i = 0; i < many; i++) {
            int rate = RATES[(firstRate + i) % RATES.length];
            groups.add(new TrackGroup(1 + random.nextInt(170), rate, pick(SampleFormat.values())));
        }
        return groups;
    }

    private <T> T pick(T[] values) {
        return values[random.nextInt(values.length)];
    }
}
