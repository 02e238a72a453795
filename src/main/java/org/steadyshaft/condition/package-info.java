/**
 * Whether a recording can be trusted. Start at {@link org.steadyshaft.condition.ConditionJudge}, which turns the figures
 * of {@link org.steadyshaft.condition.LevelSurvey} and {@link org.steadyshaft.condition.HumMeter} into findings in words
 * that help at the bench; {@link org.steadyshaft.condition.GapFinder} tells where the signal is missing. Uses signal,
 * numeric and published.
 */
package org.steadyshaft.condition;
