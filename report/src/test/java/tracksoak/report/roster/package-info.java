/** Tests of the roster. */
@org.jspecify.annotations.NullMarked
package tracksoak.report.roster;
