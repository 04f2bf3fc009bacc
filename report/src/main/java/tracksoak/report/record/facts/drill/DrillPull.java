package tracksoak.report.record.facts.drill;

import tracksoak.report.record.facts.Fault;

/**
 * How the drive went.
 *
 * @param atS when the bench found it gone, in s since the take began; audio counts as made until then
 * @param lastDoneS when the last call before that came back well, in s since the take began
 * @param flushS flush interval of the session, in s; 0 for none before the end
 * @param fault what ended the take
 */
public record DrillPull(double atS, double lastDoneS, double flushS, Fault fault) {}
