package tracksoak.bench.page;

import tracksoak.bench.job.JobListener;
import tracksoak.profiles.base.Problem;

/** Listens to nothing. */
final class Nobody implements JobListener {

    @Override
    public void note(String sentence) {}

    @Override
    public void trouble(Problem problem) {}
}
