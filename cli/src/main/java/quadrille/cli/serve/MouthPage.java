package quadrille.cli.serve;

import java.util.List;
import quadrille.cli.render.picture.EntryRing;

/**
 * A mouth as it is typed.
 *
 * @param url what its addresses begin with
 * @param of what stood on the disk when the typing began
 * @param draft what stands in its draft
 * @param whole whether it is a chart already, and nothing has been typed since
 * @param lines as tooth lines
 * @param alerts that may be said
 */
public record MouthPage(
    boolean demo,
    String url,
    String of,
    String draft,
    boolean whole,
    String lines,
    List<String> alerts,
    EntryRing ring) {}
