package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Finding room and keeping the directory, dearer with every file and every fragment: each new cluster costs a search,
 * and each change of the directory a rewrite. The SD Physical Layer Simplified Specification 4.10, §4.13, allows an
 * update of the file table 100 ms on average and 750 ms at most, a directory write 500 ms.
 *
 * @param clusterNs time per new cluster in ns
 * @param directoryNs time per change of the directory in ns: create, delete, flush with metadata, close, sync
 * @param perFileNs more for either with each file in the folder, in ns
 * @param perFragmentNs more per new cluster with each piece the file lies in, in ns
 */
public record AllocationCost(long clusterNs, long directoryNs, long perFileNs, long perFragmentNs)
        implements Behaviour {

    private static final long MOST_NS = 10_000_000_000L;
    private static final long MOST_MORE_NS = 10_000_000;

    public AllocationCost {
        new Limits()
                .time("cluster", clusterNs, 0, MOST_NS)
                .time("directory", directoryNs)
                .time("per_file", perFileNs, 0, MOST_MORE_NS)
                .time("per_fragment", perFragmentNs, 0, MOST_MORE_NS)
                .hold();
    }

    @Override
    public String says() {
        return "takes " + FigureText.time(clusterNs) + " to find room, more with every file and fragment";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) {
                switch (call.kind()) {
                    case WRITE ->
                        call.add(call.newClusters()
                                * (clusterNs + call.files() * perFileNs + call.fragments() * perFragmentNs));
                    case EXTEND ->
                        call.add(directoryCost(call)
                                + call.newClusters()
                                        * (clusterNs + call.files() * perFileNs + call.fragments() * perFragmentNs));
                    case FLUSH -> call.add(call.metadata() ? directoryCost(call) : 0);
                    case CREATE, DELETE, CLOSE, SYNC_FOLDER -> call.add(directoryCost(call));
                    case READ, OPEN -> {}
                }
            }
        };
    }

    private long directoryCost(Call call) {
        return directoryNs + call.files() * perFileNs;
    }
}
