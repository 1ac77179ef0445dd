//! The observation of a report: wind, pressure, temperature and dew point.

use super::groups::{self, Pressure};
use super::report::Report;
use crate::weather::note::Detail;

/// Words that end the observation: what follows is remarks or a trend forecast.
const OBSERVATION_ENDS: [&str; 5] = ["RMK", "RMKS", "NOSIG", "BECMG", "TEMPO"];

impl Report {
    /// Takes in the groups after the heading.
    pub(super) fn observe(&mut self, groups: &[&str]) {
        let end = groups
            .iter()
            .position(|group| OBSERVATION_ENDS.contains(group));
        let (body, after) = groups.split_at(end.unwrap_or(groups.len()));
        if body.contains(&"NIL") {
            self.nil = true;
            self.notes.push(Detail::Nil);
            return;
        }
        let remarks = after.iter().skip_while(|group| !group.starts_with("RMK"));
        self.take_wind(body);
        self.take_pressure(body);
        self.take_temperatures(body, remarks.copied().find_map(groups::tenths));
        if groups.contains(&"$") {
            self.notes.push(Detail::Maintenance);
        }
    }

    fn take_wind(&mut self, body: &[&str]) {
        let found = body
            .iter()
            .find_map(|&group| Some((group, groups::wind(group)?)));
        let speed = found.and_then(|(_, wind)| wind.speed_m_s);
        if let Some((group, wind)) = found {
            self.wind_m_s = wind.speed_m_s;
            self.gust_m_s = wind.gust_m_s;
            self.calm = wind.calm;
            self.wind_variable =
                wind.variable || body.iter().any(|group| groups::is_wind_range(group));
            if wind.at_least {
                let group = group.to_owned();
                self.notes.push(Detail::AtLeast(group));
            }
        }
        if speed.is_none() {
            let ends_in_unit = |g: &&&str| ["KT", "MPS", "KMH"].iter().any(|u| g.ends_with(u));
            let group = body.iter().find(ends_in_unit);
            self.notes
                .push(Detail::NoWind(group.map(|&group| group.to_owned())));
        }
    }

    fn take_pressure(&mut self, body: &[&str]) {
        for group in body {
            match groups::pressure(group) {
                Some(Pressure::Given(hpa)) => {
                    self.qnh_hpa = Some(hpa);
                    return;
                }
                Some(Pressure::Impossible) => {
                    self.notes.push(Detail::Pressure((*group).to_owned()))
                }
                Some(Pressure::Missing) | None => {}
            }
        }
    }

    fn take_temperatures(&mut self, body: &[&str], tenths: Option<(f64, Option<f64>)>) {
        let pressure_at = body.iter().position(|g| groups::pressure(g).is_some());
        let (before, after) = body.split_at(pressure_at.unwrap_or(body.len()));
        let last = |groups: &[&str]| {
            let mut found = groups.iter().rev();
            found.find_map(|&group| Some((group.to_owned(), groups::temperatures(group)?)))
        };
        let whole = last(before).or_else(|| {
            let (group, read) = last(after)?;
            self.notes.push(Detail::OutOfOrder(group.clone()));
            Some((group, read))
        });
        let whole = whole.map(|(_, read)| read);
        if let (Some((body_c, _)), Some((tenths_c, _))) = (whole, tenths) {
            // A half may have been rounded either way, whatever the rule; a tenth more may not.
            if (tenths_c - body_c).abs() > 0.55 {
                self.notes.push(Detail::TenthsDisagree { tenths_c, body_c });
            }
        }
        self.tenths = tenths.is_some();
        self.temp_c = tenths.or(whole).map(|(temp_c, _)| temp_c);
        self.dew_point_c = tenths
            .and_then(|(_, dew)| dew)
            .or(whole.and_then(|(_, dew)| dew));
        match (self.temp_c, self.dew_point_c) {
            (None, _) => {
                let like = before
                    .iter()
                    .rev()
                    .find(|g| groups::is_like_temperatures(g));
                let group = like.map(|&group| group.to_owned());
                self.notes.push(Detail::NoTemperature(group));
            }
            (_, None) => self.notes.push(Detail::NoDewPoint),
            (Some(temp_c), Some(dew_point_c)) if dew_point_c > temp_c => {
                self.notes.push(Detail::DewPointAbove {
                    temp_c,
                    dew_point_c,
                });
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::report::parse_report;
    use super::*;

    /// A report with these groups after its time.
    fn read(groups: &str) -> Report {
        parse_report(&format!("KMMH 111435Z {groups}")).unwrap()
    }

    #[test]
    fn the_last_temperature_before_the_pressure_counts() {
        let r = read(
            "00000KT M1/4SM R09/P6000FT 2 1/2SM 12/11 SCT120BKN180 M04/M05 A3029 10/10 RMK 09/09",
        );
        assert_eq!(
            (r.temp_c, r.dew_point_c, r.tenths),
            (Some(-4.0), Some(-5.0), false)
        );
        assert_eq!(r.notes, []);
    }

    #[test]
    fn a_temperature_after_the_pressure_is_taken_with_a_note() {
        let r = read("00000KT 9999 Q1013 M04/M05 NOSIG");
        let group = "M04/M05".to_owned();
        assert_eq!(
            (r.temp_c, r.notes),
            (Some(-4.0), vec![Detail::OutOfOrder(group)])
        );
    }

    #[test]
    fn a_group_like_a_temperature_is_noted_and_not_taken() {
        let r = read("00000KT 10SM 201/16 A3031");
        let group = Some("201/16".to_owned());
        assert_eq!(
            (r.temp_c, r.notes),
            (None, vec![Detail::NoTemperature(group)])
        );
        assert_eq!(
            read("00000KT 10SM ///// A3031").notes,
            [Detail::NoTemperature(None)]
        );
    }

    #[test]
    fn minus_nought_is_below_nought() {
        let r = read("00000KT M00/M00 Q1013");
        assert!(r.temp_c.is_some_and(|t| t == 0.0 && t.is_sign_negative()));
        assert!(
            read("00000KT 00/M00 Q1013")
                .temp_c
                .is_some_and(f64::is_sign_positive)
        );
    }

    #[test]
    fn tenths_of_the_temperature_alone_leave_the_dew_point_of_the_body() {
        let r = read("00000KT 02/M01 A3008 RMK AO2 T0021");
        assert_eq!(
            (r.temp_c, r.dew_point_c, r.tenths),
            (Some(2.1), Some(-1.0), true)
        );
        assert_eq!(
            read("00000KT 02/ A3008 RMK T0021").notes,
            [Detail::NoDewPoint]
        );
    }

    #[test]
    fn tenths_that_do_not_round_to_the_body_are_noted() {
        let r = read("00000KT M05/M07 A3031 RMK T10381075");
        assert_eq!(
            r.notes,
            [Detail::TenthsDisagree {
                tenths_c: -3.8,
                body_c: -5.0
            }]
        );
        // Halves are rounded up by the rule, and down by some stations.
        assert_eq!(read("00000KT M05/M07 A3031 RMK T10551075").notes, []);
        assert_eq!(read("00000KT M06/M07 A3031 RMK T10551075").notes, []);
    }

    #[test]
    fn a_trend_and_the_remarks_are_not_the_observation() {
        let r = read("00000KT M05/M07 Q1013 BECMG 27015G25KT RMK SLP260 A2992 PK WND 28045/15 $");
        assert_eq!(
            (r.wind_m_s, r.calm, r.qnh_hpa),
            (Some(0.0), true, Some(1013.0))
        );
        assert_eq!(r.notes, [Detail::Maintenance]);
        assert_eq!(read("00000KT M05/M07 RMK SLP260").qnh_hpa, None);
    }

    #[test]
    fn a_wind_between_two_directions_is_variable() {
        assert!(read("25007KT 220V280 M03/M07 A3013").wind_variable);
        assert!(read("VRB02KT M03/M07 A3013").wind_variable);
        assert!(!read("25007KT M03/M07 A3013").wind_variable);
    }

    #[test]
    fn a_missing_or_unreadable_wind_is_noted() {
        assert_eq!(read("M03/M07 A3013").notes, [Detail::NoWind(None)]);
        let group = |g: &str| Some(g.to_owned());
        assert_eq!(
            read("/////KT M03/M07 A3013").notes,
            [Detail::NoWind(group("/////KT"))]
        );
        assert_eq!(
            read("0903KT M03/M07 A3013").notes,
            [Detail::NoWind(group("0903KT"))]
        );
    }

    #[test]
    fn a_dew_point_above_the_temperature_is_noted() {
        let odd = Detail::DewPointAbove {
            temp_c: -7.0,
            dew_point_c: -5.0,
        };
        assert_eq!(read("00000KT M07/M05 A3013").notes, [odd]);
    }

    #[test]
    fn a_nil_report_says_nothing_else() {
        let r = read("NIL=");
        assert_eq!((r.nil, r.temp_c, r.notes), (true, None, vec![Detail::Nil]));
    }
}
