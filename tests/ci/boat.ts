/** A boat that checks clean, and what may be done to her. */
export const GOODS = `family Tern

model One : display {
  families Tern
  screen 8 in
  shows  chart, video
  shares chart
  port net : ethernet
}
model Cam : camera {
  gives video
  port net : ethernet
}
`;

export const BOAT = `use "goods.loft"

vessel Boat {
  slack 0.5 m
}

zone helm interior

device plotter : One at helm
device cam     : Cam at helm

link plotter -- cam

need plotter show cam
`;
/** Her camera is plugged into nothing. */
export const BROKEN = BOAT.replace('link plotter -- cam\n\n', '');
