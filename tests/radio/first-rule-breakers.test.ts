import { describeRuleBreakers } from './describe-rule-breakers.ts';

describeRuleBreakers(0);
