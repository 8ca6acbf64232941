package quadrille.cli.serve;

import java.util.List;

/**
 * What the record of a visit would say, to be confirmed.
 *
 * @param revision of what was ticked, as it is shown
 * @param lines what it says
 * @param doubts what in it is worth a second look
 * @param faults what keeps it from being written
 */
public record ChairEndPage(
    boolean demo,
    String url,
    String name,
    int visit,
    String revision,
    List<String> lines,
    List<String> doubts,
    List<String> faults) {}
