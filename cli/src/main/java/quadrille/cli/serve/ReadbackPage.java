package quadrille.cli.serve;

import java.util.List;

/**
 * A chart read back.
 *
 * @param faults of a file that is no chart; its lines are empty then
 * @param unlikely what is worth a second look
 */
public record ReadbackPage(
    boolean demo,
    String url,
    String name,
    String lines,
    List<String> faults,
    List<String> unlikely) {}
