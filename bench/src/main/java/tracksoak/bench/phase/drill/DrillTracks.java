package tracksoak.bench.phase.drill;

import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillTrack;

/** Puts together what a drill knows of each stream. */
final class DrillTracks {

    private DrillTracks() {}

    /**
     * The streams at the moment of the pull.
     *
     * @param atNs of the pull, since the take began
     * @param files of the take, as the bench wrote them
     * @param lostMs audio each stream had lost in the recorder before, in ms
     */
    static List<DrillTrack> atPull(
            StreamTable table, long atNs, List<WrittenFile> files, WriteJournal journal, List<Double> lostMs) {
        List<DrillTrack> tracks = new ArrayList<>();
        int firstTrack = 1;
        for (int stream = 0; stream < table.streams(); stream++) {
            long written = 0;
            long flushed = 0;
            for (WrittenFile file : files) {
                if (file.stream() == stream) {
                    written += file.dataBytes();
                    flushed += Math.max(
                            0, Math.min(file.dataBytes(), journal.flushedBytes(file.name()) - file.headerBytes()));
                }
            }
            long produced = Math.max(table.producedBytes(stream, atNs), written);
            long dropped = stream < lostMs.size() ? Math.round(lostMs.get(stream) * table.rate(stream) / 1e3) : 0;
            tracks.add(new DrillTrack(
                    firstTrack,
                    table.tracks(stream),
                    table.rate(stream),
                    produced,
                    Math.min(dropped, produced - written),
                    written,
                    flushed,
                    null,
                    null));
            firstTrack += table.tracks(stream);
        }
        return tracks;
    }

    /** The same streams with what can still be read of them. */
    static List<DrillTrack> read(List<DrillTrack> tracks, int pass, List<Survivors.Found> found) {
        List<DrillTrack> read = new ArrayList<>();
        for (int stream = 0; stream < tracks.size(); stream++) {
            DrillTrack track = tracks.get(stream);
            long readable = 0;
            long later = 0;
            boolean gap = false;
            for (Survivors.Found file : found) {
                if (file.written().stream() == stream && file.written().pass() == pass) {
                    readable += gap ? 0 : file.readable();
                    later += file.later() + (gap ? file.readable() : 0);
                    gap |= !file.whole();
                }
            }
            // padding of the very last block is no audio
            long most = track.producedBytes() - track.droppedBytes();
            read.add(new DrillTrack(
                    track.firstTrack(),
                    track.tracks(),
                    track.bytesPerSecond(),
                    track.producedBytes(),
                    track.droppedBytes(),
                    track.writtenBytes(),
                    track.flushedBytes(),
                    Math.min(readable, most),
                    later));
        }
        return read;
    }

    /** The files as the record lists them. */
    static List<DrillFile> files(StreamTable table, int stoppedPass, List<Survivors.Found> found) {
        int[] firstTrack = new int[table.streams()];
        for (int stream = 0, track = 1; stream < firstTrack.length; stream++) {
            firstTrack[stream] = track;
            track += table.tracks(stream);
        }
        return found.stream()
                .map(file -> new DrillFile(
                        file.written().name(),
                        file.written().pass() == stoppedPass,
                        firstTrack[file.written().stream()],
                        file.written().dataBytes(),
                        file.size(),
                        file.headerBytes(),
                        file.readable(),
                        file.use()))
                .toList();
    }
}
