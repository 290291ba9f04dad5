/** The card for the wall, on one page: the code is read from two meters away. */
import { Page, StyleSheet, Text, View } from '@react-pdf/renderer';
import type { JoinCard } from '#lib/paper/join-card.ts';
import { Qr } from './codes.tsx';
import { Lines } from './lines.tsx';
import { bold, fitted, type PaperSize, paperStyles, SIDE, SIZES, type } from './styles.ts';

const MODULE = 5.6;
const WIDTH = 520;

const styles = StyleSheet.create({
  page: { paddingTop: 30, paddingHorizontal: SIDE },
  name: bold(14),
  title: bold(32, 1.1),
  middle: { flexDirection: 'row', alignItems: 'center', marginVertical: 4 },
  said: { flex: 1, ...type(12), paddingLeft: 12 },
  address: { fontWeight: 700, lineHeight: 1.2 },
  staff: { ...bold(15), marginTop: 8, borderTopWidth: 1, paddingTop: 6 },
  words: { ...bold(20), marginVertical: 4 },
  body: type(9.5),
  device: { marginTop: 5 },
  deviceName: bold(10),
  behind: { ...type(11), marginTop: 9 },
});

export function JoinCardPage({ card, size }: { card: JoinCard; size: PaperSize }) {
  return (
    <Page size={SIZES[size].name} style={[paperStyles.bare, styles.page]}>
      <Text style={styles.name}>{card.association.name}</Text>
      <Text style={styles.title}>{card.title}</Text>
      <View style={styles.middle}>
        <Qr text={card.address} module={MODULE} />
        <Lines style={styles.said} lines={card.remarks} />
      </View>
      <Text style={[styles.address, fitted(card.address, { size: 24, width: WIDTH })]}>{card.address}</Text>
      {card.words !== '' && card.devices.length > 0 ? <Staff card={card} /> : null}
    </Page>
  );
}

function Staff({ card }: { card: JoinCard }) {
  return (
    <>
      <Text style={styles.staff}>Staff: let this device trust the laptop, once</Text>
      <Text style={styles.body}>On that page these six words must stand. Other words are another machine: stop.</Text>
      <Text style={styles.words}>{card.words}</Text>
      {card.devices.map(({ name, steps }) => (
        <View key={name} style={styles.device}>
          <Text style={styles.deviceName}>{name}</Text>
          <Lines
            style={styles.body}
            lines={steps.map((step, at) => (steps.length > 1 ? `${at + 1}. ${step}` : step))}
          />
        </View>
      ))}
      <Lines style={styles.behind} lines={card.behind} />
    </>
  );
}
