/**
 * The second reading of a diary: what is booked twice, outside hours, by someone who may not, out
 * of order, or without a sterile set. Shares no reckoning with free times or with the search; of
 * diary and calendar it knows records and enums only.
 *
 * <p>Begin with {@link quadrille.diary.audit.DiaryAudit}; {@link quadrille.diary.audit.DiaryRule}
 * lists what it looks for.
 */
@NullMarked
package quadrille.diary.audit;

import org.jspecify.annotations.NullMarked;
